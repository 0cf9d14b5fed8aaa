import { describe, expect, test } from 'vitest';
import { localPlane } from '../../../../shared/earth/local.ts';
import { anchorView } from '../../../../shared/watch/drag/drag.ts';
import { held, Lying, ramp } from './lying.ts';

const HOUR = 3600;

describe('a held anchor is left in peace', () => {
  test.each([1, 3])('sheering through four hours, receiver %d', (seed) => {
    expect(new Lying(seed).lie(4 * HOUR, held()).levels).toEqual([]);
  });

  test('across slack chain to the other side when the wind turns', () => {
    const crossing = (t: number) => {
      const part = Math.min(1, Math.max(0, (t - HOUR) / 900));
      const a = held(10)(t);
      return { east: a.east, north: a.north * Math.cos(Math.PI * part) };
    };
    expect(new Lying(4).lie(3 * HOUR, crossing).levels).toEqual([]);
  });

  test('a squall that stretches the cable to its length', () => {
    const { levels } = new Lying(5).lie(
      2 * HOUR,
      held(15, (t) => (t > 4000 && t < 5000 ? 1.5 : 0)),
      (t) => ({ wind: t > 4000 && t < 5000 ? 22 : 8 }),
    );
    expect(levels).toEqual([]);
  });

  test('a position that is thrown by 6 m while the velocity tells of nothing', () => {
    const { levels } = new Lying(6).lie(2 * HOUR, held(), (t) => ({
      error: { east: 0, north: t > 4000 ? 6 : 0 },
    }));
    expect(levels).toEqual([]);
  });

  test('whatever the fixes do while the position is doubtful, and in the minutes after', () => {
    const { levels } = new Lying(7).lie(2 * HOUR, held(), (t) =>
      t > 4000 && t < 5200
        ? { doubt: 'bad sky', error: { east: 0, north: 60 * Math.sin(t / 100) } }
        : { error: { east: 0, north: 0 } },
    );
    expect(levels).toEqual([]);
  });

  test('a mark that is kilometres off, where no cable reaches: the circle is what speaks', () => {
    const boat = new Lying(9).lie(
      HOUR,
      held(20, () => 6000),
    );
    expect(boat.levels).toEqual([]);
    expect(anchorView(boat.state)).toBeUndefined();
  });

  test('chain veered on purpose', () => {
    const boat = new Lying(8).lie(HOUR, held());
    boat.state.told.veered = 60;
    expect(boat.lie(HOUR, held(20, ramp(HOUR, 0.2, 20.5))).levels).toEqual([]);
  });
});

describe('an anchor that moves is found', () => {
  test('once she has lain within reach of a mark that did not fit before', () => {
    const boat = new Lying(1).lie(
      600,
      held(5, () => 3000),
    );
    boat.lie(HOUR, held(5)).lie(25, held(5, ramp(HOUR + 600, 0.6)));
    expect(boat.levels.at(-1)).toBe('alarm');
  });

  test('a parted cable: within seconds, before she has drifted 15 m', () => {
    const boat = new Lying(1).lie(HOUR, held(5)).lie(25, held(5, ramp(HOUR, 0.6)));
    expect(boat.levels.at(-1)).toBe('alarm');
    expect(boat.why).toMatch(
      /^She moves away from her anchor: .* m farther than a held anchor allows, for \d+ s, at \d\.\d kn; wind 19\.4 kn; \d\d\.\d m to the mark\.$/,
    );
  });

  test('a creep of 12 m an hour: first a caution, then the alarm, with reasons to check', () => {
    const boat = new Lying(2).lie(HOUR, held()).lie(HOUR, held(20, ramp(HOUR, 12 / HOUR)));
    expect(boat.levels).toEqual(['caution', 'alarm']);
    expect(boat.why).toMatch(/moved \d+ ± \d+ m to \d{3}°/);
    expect(boat.why).toMatch(/wind 19\.\d kn/);
    expect(boat.why).toMatch(
      /she lies \d\d\.\d m from where it held, of \d\d\.\d m that the cable reaches in this wind\.$/,
    );
    const view = anchorView(boat.state)!;
    expect(view.probability).toBeGreaterThan(0.9);
    expect(view.moved).toBeGreaterThan(5);
    expect(view.moved).toBeLessThan(16);
  });

  test('by positions alone too, only later', () => {
    const boat = new Lying(3).lie(HOUR, held(), () => ({ velocity: false }));
    boat.lie(200, held(20, ramp(HOUR, 0.4)), () => ({ velocity: false }));
    expect(boat.levels.at(-1)).toBe('alarm');
  });

  test('she comes back: alarm becomes caution, and that goes too', () => {
    const there = (t: number) => (t < HOUR + 1500 ? ramp(HOUR, 0.01, 12)(t) : 0);
    const boat = new Lying(2).lie(4 * HOUR, held(20, there));
    expect(boat.levels).toEqual(['caution', 'alarm', 'caution', 'none']);
  });
});

describe('while weighing', () => {
  test('it stands down, and what happened meanwhile counts for nothing afterwards', () => {
    const boat = new Lying(2).lie(HOUR, held());
    boat.state.phase = 'weighing';
    boat.lie(600, held(20, ramp(HOUR, 0.05)));
    expect(boat.state.drag?.found).toBeUndefined();
    expect(anchorView(boat.state)).toBeUndefined();
    boat.state.phase = 'watching';
    expect(boat.lie(HOUR, held()).levels).toEqual([]);
  });
});

describe('what it remembers', () => {
  test('is plain data: a watch that was stored goes on as if it had not been', () => {
    const one = new Lying(2).lie(HOUR, held());
    const two = new Lying(2).lie(HOUR, held());
    two.state.drag = JSON.parse(JSON.stringify(two.state.drag));
    expect(two.state.drag).toEqual(one.state.drag);
    one.lie(HOUR, held(20, ramp(HOUR, 12 / HOUR)));
    two.lie(HOUR, held(20, ramp(HOUR, 12 / HOUR)));
    expect(two.levels).toEqual(one.levels);
    expect(JSON.stringify(one.state.drag)).not.toMatch(/null/);
  });

  test('stays small through a night', () => {
    const boat = new Lying(9).lie(2 * HOUR, held());
    const size = JSON.stringify(boat.state.drag).length;
    expect(size).toBeLessThan(12_000);
  });

  test('begins anew with another mark, and ends without one', () => {
    const boat = new Lying(2).lie(2 * HOUR, held(20, ramp(HOUR, 12 / HOUR)));
    expect(boat.state.drag?.found?.level).toBe('alarm');
    boat.state.mark = { ...boat.state.mark!, at: boat.at, lat: boat.state.mark!.lat + 1e-4 };
    boat.lie(1, held(20, ramp(HOUR, 12 / HOUR)));
    expect(boat.state.drag?.found).toBeUndefined();
    delete boat.state.mark;
    boat.lie(1, held());
    expect(boat.state.drag).toBeUndefined();
    expect(anchorView(boat.state)).toBeUndefined();
  });
});

describe('the estimated anchor', () => {
  test('has a place in metres from the mark and an ellipse that is longest where least is known: along the pull when she drags', () => {
    const boat = new Lying(2).lie(HOUR, held()).lie(HOUR, held(20, ramp(HOUR, 12 / HOUR)));
    const { east, north, moved, ellipse, lat, lon } = anchorView(boat.state)!;
    const place = localPlane(boat.state.mark!).toLocal({ lat, lon });
    expect(place.east).toBeCloseTo(east, 6);
    expect(place.north).toBeCloseTo(north, 6);
    expect(north).toBeGreaterThan(moved / 2);
    expect(ellipse.major).toBeGreaterThanOrEqual(ellipse.minor);
    expect(ellipse.minor).toBeGreaterThan(0.3);
    expect(ellipse.major).toBeLessThan(6);
    expect(ellipse.bearing).toBeGreaterThanOrEqual(0);
    expect(ellipse.bearing).toBeLessThan(360);
  });

  test('lain to one side only, it is known better along the pull than across it', () => {
    const boat = new Lying(2).lie(HOUR, held(5));
    const { ellipse } = anchorView(boat.state)!;
    // She lies north: the major axis is east–west.
    expect(Math.abs(Math.sin((ellipse.bearing * Math.PI) / 180))).toBeGreaterThan(0.9);
    expect(ellipse.major).toBeGreaterThan(1.3 * ellipse.minor);
  });
});
