import { describe, expect, test } from 'vitest';
import { variation } from '../../../shared/earth/variation.ts';
import { deviationAt, magneticOf } from '../../../shared/vessel/deviation.ts';
import { accepted } from '../sentences/read.ts';
import { fix, HOME, Rig, START, say, settings } from './help.ts';

const magnetic = (heading: number, deviationApplied = true) =>
  ({ kind: 'heading-magnetic', heading, deviationApplied }) as const;
const stated = (value: number) => ({ kind: 'variation', variation: value }) as const;

/** Fixes for ten seconds, so that the model knows the place. */
function atHome(chosen = settings): Rig {
  const rig = new Rig(START, chosen);
  for (let i = 0; i < 10; i++) rig.hear(START + i, fix('GPGGA', START + i));
  return rig;
}

describe('deviation card', () => {
  const card = [
    [0, 2],
    [90, -4],
    [270, 4],
  ] as const;

  test('is linear between its entries, round the compass', () => {
    expect(deviationAt(0, card)).toBe(2);
    expect(deviationAt(45, card)).toBe(-1);
    expect(deviationAt(180, card)).toBe(0);
    expect(deviationAt(315, card)).toBe(3);
    expect(deviationAt(350, card)).toBeCloseTo(2.2222, 4);
  });

  test('in any order; one entry holds everywhere; an empty card says nothing', () => {
    expect(deviationAt(45, [...card].reverse())).toBe(-1);
    expect(deviationAt(200, [[90, -3]])).toBe(-3);
    expect(deviationAt(200, [])).toBe(0);
  });

  test('is entered with the magnetic heading it leads to', () => {
    for (let compass = 0; compass < 360; compass += 7) {
      const m = magneticOf(compass, card);
      expect(Math.abs(m - compass - deviationAt(m, card)) % 360).toBeLessThan(0.01);
    }
  });
});

describe('true heading', () => {
  /** Furuno FR-1500 manual p. 8-6 [F]: 98.3 + 0.1 E = 98.4 M, 12.6 W: 85.8 T. */
  test('from HDG with deviation and variation, as published', () => {
    const rig = new Rig();
    rig.hear(START, accepted('$HCHDG,98.3,0.1,E,12.6,W*56'));
    expect(rig.view().heading).toMatchObject({ from: 'magnetic-sensor', sigma: 3, source: 'udp1:HCHDG' });
    expect(rig.view().heading?.value).toBeCloseTo(85.8, 6);
  });

  /** IJsselmeer log [F]: HDG 229.8 with 1.3 E is 231.1 T. */
  test('from HDG with variation only', () => {
    const rig = new Rig();
    rig.hear(START, accepted('$SDHDG,229.8,,,1.3,E*36'));
    expect(rig.view().heading?.value).toBeCloseTo(231.1, 6);
    expect(rig.view().variation).toBe(1.3);
  });

  test('a compass that states no deviation is corrected by the card, one that does is not', () => {
    const chosen = { ...settings, deviation: [[0, 5]] as const };
    const rig = new Rig(START, chosen);
    rig.hear(START, say('HCHDG', magnetic(100, false), stated(2)));
    expect(rig.view().heading?.value).toBe(107);
    rig.hear(START + 1, say('HCHDG', magnetic(100, true), stated(2)));
    expect(rig.view().heading?.value).toBe(102);
  });

  test('HDM takes the variation of RMC', () => {
    const rig = new Rig();
    rig.hear(START, say('IIRMC', stated(-10)));
    rig.hear(START, say('HCHDM', magnetic(5)));
    expect(rig.view().heading).toMatchObject({ value: 355, from: 'magnetic-sensor' });
  });

  test('without any stated variation by the model at the place of the fix', () => {
    const rig = atHome();
    const model = variation(HOME.lat, HOME.lon, START)?.value ?? Number.NaN;
    rig.hear(START + 10, say('HCHDM', magnetic(90)));
    const heading = rig.view().heading;
    expect(heading).toMatchObject({ from: 'magnetic-model', sigma: 4 });
    expect(heading?.value).toBeCloseTo(90 + model, 9);
    expect(rig.view().variation).toBeCloseTo(model, 9);
  });

  test('a variation of 0.0 where the model knows better is not believed, and a note says so once', () => {
    const rig = new Rig();
    // Near San Francisco, where a receiver was recorded stating 0.00 E (reference §2, RMC); the model gives 12.9° E.
    const there = { lat: 37.965442, lon: -122.532424 };
    for (let i = 0; i < 20; i++) {
      rig.hear(
        START + i,
        say(
          'GPRMC',
          { kind: 'time', timeOfDay: i },
          { kind: 'position', ...there, quality: 'autonomous', resolution: 0.02, timeOfDay: i },
          stated(0),
        ),
      );
    }
    const seen = rig.view();
    expect(seen.variation).toBeGreaterThan(10);
    expect(rig.notes.filter((note) => note.startsWith('variation by WMM2025'))).toHaveLength(1);
  });

  test('an old table or a rounding is believed, a sign the wrong way round is not', () => {
    const { value, sigma } = variation(HOME.lat, HOME.lon, START)!;
    for (const [error, believed] of [
      [2.9, true],
      [-2.9 - 3 * sigma, true],
      [3.1 + 3 * sigma, false],
    ] as const) {
      const rig = atHome();
      rig.hear(START + 10, say('IIRMC', stated(value + error)));
      expect(rig.view().variation).toBeCloseTo(believed ? value + error : value, 9);
    }
  });

  test('without variation a compass gives no true heading, and no age of one', () => {
    const rig = new Rig();
    rig.hear(START, say('HCHDM', magnetic(90)));
    expect(rig.view().heading).toBeUndefined();
    expect(rig.view().ages.heading).toBeUndefined();
  });

  test('when the variation has outlived its limit the heading is lost, and old', () => {
    const rig = new Rig();
    rig.hear(START, say('IIRMC', stated(3)));
    rig.hear(START + 6 * 3600, say('HCHDM', magnetic(90)));
    expect(rig.view().heading?.value).toBe(93);
    rig.hear(START + 6 * 3600 + 60, say('HCHDM', magnetic(90)));
    expect(rig.view().heading).toBeUndefined();
    expect(rig.view().ages.heading).toBe(60);
  });

  test('a true sensor is preferred to a compass once it has been steady, and alone is enough', () => {
    const rig = new Rig();
    for (let i = 0; i < 14; i++) {
      rig.hear(START + i, say('HCHDG', magnetic(100), stated(2)));
      rig.hear(START + i, say('HEHDT', { kind: 'heading', heading: 104 }));
    }
    expect(rig.view().heading).toMatchObject({ value: 104, from: 'true', sigma: 1, source: 'udp1:HEHDT' });
    expect(rig.notes).toEqual(['heading now from HE HDT on udp1; it is better than HC HDG on udp1']);
  });

  test('of the two headings in one VHW the true one is taken', () => {
    const rig = new Rig();
    rig.hear(START, accepted('$SDVHW,231.3,T,229.9,M,6.6,N,12.3,K*71'));
    expect(rig.view().heading).toMatchObject({ value: 231.3, from: 'true' });
  });

  test('is gone five seconds after the last one; blanks refresh nothing', () => {
    const rig = new Rig();
    rig.hear(START, say('HEHDT', { kind: 'heading', heading: 0 }));
    for (let i = 1; i < 10; i++) rig.hear(START + i, say('HEHDT'));
    expect(rig.view().heading).toBeUndefined();
    expect(rig.view().ages.heading).toBe(9);
    expect(rig.view().sources.heading).toBeUndefined();
  });
});
