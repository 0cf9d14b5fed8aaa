import { describe, expect, test } from 'vitest';
import { localPlane } from '../../../../shared/earth/local.ts';
import { anchorView } from '../../../../shared/watch/drag/drag.ts';
import { setBackOffer } from '../../../../shared/watch/drag/offer.ts';
import { command } from '../../../../shared/watch/watch.ts';
import { MARK, START } from '../help.ts';
import { held, Lying, ramp } from './lying.ts';

const MINUTE = 60;
const HOUR = 3600;

/** The boat lies north of MARK with 37 m of reach; the mark was let go 5 m south of where the anchor then dug in. */
const dugIn = (seconds: number) => {
  const boat = new Lying(2, { east: 0, north: -5 });
  boat.lie(seconds, held());
  return boat;
};
const order = (boat: Lying) =>
  command(
    boat.state,
    boat.settings,
    { at: boat.at, ages: {}, sources: {} },
    { do: 'mark', how: { setBack: true } },
    boat.at,
    'Ann',
  );

describe('the mark is offered to be moved to where the anchor dug in', () => {
  test('once that is known: metres, direction and place', () => {
    const offer = setBackOffer(dugIn(40 * MINUTE).state, START + 40 * MINUTE)!;
    expect(offer.moved).toBeGreaterThan(2.5);
    expect(offer.moved).toBeLessThan(8);
    expect(Math.cos((offer.bearing * Math.PI) / 180)).toBeGreaterThan(0.9);
    const { north } = localPlane(MARK).toLocal(offer);
    expect(Math.abs(north)).toBeLessThan(3);
    expect(offer.sigma).toBeGreaterThan(0.5);
  });

  test('not while it may still dig in, not hours afterwards, not for some decimetres', () => {
    const early = dugIn(9 * MINUTE);
    expect(setBackOffer(early.state, early.at)).toBeUndefined();
    const late = dugIn(40 * MINUTE);
    expect(setBackOffer(late.state, START + 4 * HOUR)).toBeUndefined();
    const little = new Lying(2, { east: 0, north: 0.5 }).lie(40 * MINUTE, held());
    expect(setBackOffer(little.state, little.at)).toBeUndefined();
  });

  test('not while it drags, and not while weighing', () => {
    const boat = dugIn(40 * MINUTE);
    boat.lie(20 * MINUTE, held(20, ramp(40 * MINUTE, 0.02)));
    expect(boat.state.drag?.found).toBeDefined();
    expect(setBackOffer(boat.state, boat.at)).toBeUndefined();
    const weighing = dugIn(40 * MINUTE);
    weighing.state.phase = 'weighing';
    expect(setBackOffer(weighing.state, weighing.at)).toBeUndefined();
  });
});

describe('the order to do so', () => {
  test('moves the mark there, keeps what was learnt, and withdraws the offer', () => {
    const boat = dugIn(40 * MINUTE);
    const offer = setBackOffer(boat.state, boat.at)!;
    const { answer } = order(boat);
    expect(answer).toMatchObject({ ok: true, mark: { lat: offer.lat, lon: offer.lon, how: 'set-back' } });
    expect(setBackOffer(boat.state, boat.at)).toBeUndefined();
    boat.lie(HOUR, held());
    expect(boat.levels).toEqual([]);
    const { east, north } = anchorView(boat.state)!;
    expect(Math.hypot(east, north)).toBeLessThan(1.5);
    expect(setBackOffer(boat.state, boat.at)).toBeUndefined();
    boat.lie(HOUR, held(20, ramp(boat.at - START, 12 / HOUR)));
    expect(boat.levels.at(-1)).toBe('alarm');
  });

  test('is refused while there is nothing to offer, and changes nothing', () => {
    const boat = dugIn(5 * MINUTE);
    const before = JSON.stringify(boat.state);
    expect(order(boat).answer).toMatchObject({ ok: false, problem: 'unavailable' });
    expect(JSON.stringify(boat.state)).toBe(before);
  });
});

test('digging in is not dragging: five metres towards the boat in the first minutes raise nothing', () => {
  const boat = new Lying(3).lie(
    2 * HOUR,
    held(20, (t) => Math.min(5, Math.max(0, t - 180) * 0.4)),
  );
  expect(boat.levels).toEqual([]);
});
