import { describe, expect, test } from 'vitest';
import { clearanceOver, underKeel } from '../../../../shared/water/tide/clearance.ts';
import { type Constituent, harmonicTide } from '../../../../shared/water/tide/harmonic.ts';
import { heightBetween, heightByTable, heightByTwelfths } from '../../../../shared/water/tide/height.ts';
import { M2_PERIOD, SPEEDS, separation } from '../../../../shared/water/tide/speeds.ts';

const clock = (hours: number, minutes: number) => hours * 3600 + minutes * 60;

describe('height between high and low water', () => {
  test('Montague Harbour, 1 Oct 2003 (CHS example, sailnet.com [F]): 0700 → 5.8 ft; 5.813106 [C]', () => {
    const low = { at: clock(3, 27), height: 2.2 };
    const high = { at: clock(11, 41), height: 11.4 };
    const height = heightBetween(low, high, clock(7, 0))!;
    expect(height).toBeCloseTo(5.8, 1);
    expect(height).toBeCloseTo(5.813106, 6);
  });

  test('Rainsford Island (batswings.com [F]): 1400 → 5.0 ft by twelfths with the time rounded to 3 h; cosine 5.438350 [C]', () => {
    const high = { at: clock(11, 11), height: 10.0 * 0.95 };
    const low = { at: clock(17, 12), height: 0.5 * 0.95 };
    expect(heightBetween(high, low, clock(14, 0))).toBeCloseTo(5.43835, 5);
    const sixths = { ...low, at: clock(17, 11) };
    expect(heightByTwelfths(high, sixths, clock(14, 11))).toBeCloseTo(5.0, 1);
  });

  test('rule of twelfths 1-2-3-3-2-1, and how far it is from the cosine: 2.5551 % of the range at most [C]', () => {
    const from = { at: 0, height: 0 };
    const to = { at: 6, height: 1 };
    const twelfths = [0, 1, 2, 3, 4, 5, 6].map((at) => heightByTwelfths(from, to, at)!);
    [0, 0.083333, 0.25, 0.5, 0.75, 0.916667, 1].forEach((value, k) => {
      expect(twelfths[k]).toBeCloseTo(value, 6);
    });
    const cosine = [0, 1, 2, 3, 4, 5, 6].map((at) => heightBetween(from, to, at)!);
    [0, 0.066987, 0.25, 0.5, 0.75, 0.933013, 1].forEach((value, k) => {
      expect(cosine[k]).toBeCloseTo(value, 6);
    });
    let worst = 0;
    for (let at = 0; at <= 6; at += 0.001) {
      worst = Math.max(worst, Math.abs(heightByTwelfths(from, to, at)! - heightBetween(from, to, at)!));
    }
    expect(worst).toBeCloseTo(0.025551, 5);
  });

  test('outside its two turns the curve says nothing', () => {
    const low = { at: 0, height: 1 };
    const high = { at: 100, height: 3 };
    expect(heightBetween(low, high, -1)).toBeUndefined();
    expect(heightBetween(low, high, 101)).toBeUndefined();
    expect(heightBetween(low, low, 0)).toBeUndefined();
    expect(heightByTwelfths(low, high, Number.NaN)).toBeUndefined();
  });

  test('by a table of turns, in any order', () => {
    const turns = [
      { at: 200, height: 0.5 },
      { at: 0, height: 1 },
      { at: 100, height: 3 },
    ];
    expect(heightByTable(turns, 150)).toMatchObject({ state: 'known', height: 1.75 });
    expect(heightByTable(turns, 100)).toMatchObject({ state: 'known', height: 3 });
    expect(heightByTable(turns, -1)).toEqual({ state: 'unknown', reason: 'before-table' });
    expect(heightByTable(turns, 201)).toEqual({ state: 'unknown', reason: 'after-table' });
    expect(heightByTable([], 0)).toEqual({ state: 'unknown', reason: 'no-turns' });
    expect(heightByTable([{ at: Number.NaN, height: 1 }, ...turns.slice(1)], 50)).toMatchObject({
      state: 'known',
    });
  });
});

describe('constituents', () => {
  test('M2 = 2(T − s + h) with T 15, s 0.5490165, h 0.0410686 °/h; periods in hours', () => {
    expect(2 * (15 - 0.5490165 + 0.0410686)).toBeCloseTo(SPEEDS.M2, 6);
    expect(M2_PERIOD / 3600).toBeCloseTo(12.420601, 6);
    for (const [name, hours] of [
      ['S2', 12],
      ['N2', 12.658348],
      ['K1', 23.93447],
      ['O1', 25.819342],
    ] as const) {
      expect(360 / SPEEDS[name]).toBeCloseTo(hours, 6);
    }
  });

  test.each([
    // Rayleigh's criterion, days [C].
    ['M2', 'S2', 14.7653],
    ['M2', 'N2', 27.5546],
    ['K1', 'O1', 13.6608],
    ['K1', 'P1', 182.6213],
    ['S2', 'K2', 182.6211],
    ['M2', 'O1', 0.9973],
  ] as const)('%s and %s are told apart after %d days', (one, other, days) => {
    expect(separation(one, other) / 86_400).toBeCloseTo(days, 3);
  });
});

describe('harmonic prediction', () => {
  /** Monterey-like constituents, feet and degrees; heights by an independent Schureman implementation [C]. */
  const MONTEREY: Constituent[] = [
    { name: 'M2', amplitude: 1.61, phase: 181.3 },
    { name: 'S2', amplitude: 0.43, phase: 180.1 },
    { name: 'N2', amplitude: 0.37, phase: 155.0 },
    { name: 'K1', amplitude: 1.2, phase: 219.6 },
    { name: 'O1', amplitude: 0.75, phase: 203.5 },
  ];
  const at = (hour: number) => Date.UTC(2019, 8, 1, hour) / 1000;
  const tideOf = (constituents: Constituent[], level = 0, corrections?: 'iho' | 'schureman') => {
    const tide = harmonicTide(constituents, level, corrections);
    if (tide.state === 'refused') throw new Error(tide.reason);
    return tide;
  };

  test.each([
    [0, -1.268526],
    [3, -0.647887],
    [6, 2.040037],
    [9, 1.10015],
    [12, -2.322214],
  ])('2019-09-01 %d h UTC: %d', (hour, height) => {
    expect(Math.abs(tideOf(MONTEREY, 0, 'schureman').height(at(hour)) - height)).toBeLessThan(0.001);
    // Simpler node corrections, a little further off.
    expect(Math.abs(tideOf(MONTEREY).height(at(hour)) - height)).toBeLessThan(0.01);
  });

  test('the formula term by term with f and V₀+u of that epoch [C]', () => {
    const terms = [
      [1.61, 181.3, 1.00962, 322.127, SPEEDS.M2],
      [0.43, 180.1, 1, 0, SPEEDS.S2],
      [0.37, 155.0, 1.00962, 307.851, SPEEDS.N2],
      [1.2, 219.6, 0.98487, 241.024, SPEEDS.K1],
      [0.75, 203.5, 0.97532, 85.256, SPEEDS.O1],
    ] as const;
    for (const hour of [0, 3, 6, 9, 12]) {
      const sum = terms.reduce(
        (h, [amplitude, kappa, f, v0u, speed]) =>
          h + f * amplitude * Math.cos(((speed * hour + v0u - kappa) * Math.PI) / 180),
        0,
      );
      expect(Math.abs(tideOf(MONTEREY, 0, 'schureman').height(at(hour)) - sum)).toBeLessThan(0.002);
    }
  });

  test('high and low waters are where the height turns, and the mean level lifts everything', () => {
    const tide = tideOf(MONTEREY, 3);
    const turns = tide.turns(at(0), at(24));
    expect(turns.length).toBeGreaterThanOrEqual(3);
    for (const turn of turns) {
      const around = [-300, 300].map((seconds) => tide.height(turn.at + seconds) - tide.height(turn.at));
      for (const change of around) expect(Math.sign(change)).toBe(turn.high ? -1 : 1);
      // The package takes its node corrections once for the whole span here.
      expect(Math.abs(tide.height(turn.at) - turn.height)).toBeLessThan(0.003);
    }
    expect(tide.height(at(5)) - tideOf(MONTEREY).height(at(5))).toBeCloseTo(3, 9);
    expect(tide.turns(at(3), at(3))).toEqual([]);
  });

  test('every second has its own height: the package’s own question rounds down to ten minutes', () => {
    const tide = tideOf([{ name: 'M2', amplitude: 1, phase: 0 }]);
    const speed = ((SPEEDS.M2 / 3600) * Math.PI) / 180;
    for (let second = 0; second < 45_000; second += 37) {
      const change = tide.height(at(0) + second + 1) - tide.height(at(0) + second);
      expect(Math.abs(change)).toBeLessThan(1.05 * speed);
    }
    expect(tide.height(at(0) + 599)).not.toBe(tide.height(at(0) + 1));
    expect(() => tide.height(Number.NaN)).toThrow(RangeError);
  });

  test.each([
    ['no constituent', []],
    ['"M2x" is not known', [{ name: 'M2x', amplitude: 1, phase: 0 }]],
    ['"constructor" is not known', [{ name: 'constructor', amplitude: 1, phase: 0 }]],
    ['amplitude of M2 is NaN', [{ name: 'M2', amplitude: Number.NaN, phase: 0 }]],
    ['amplitude of M2 is -1', [{ name: 'M2', amplitude: -1, phase: 0 }]],
    ['phase of M2 is NaN', [{ name: 'M2', amplitude: 1, phase: Number.NaN }]],
    [
      'M2 is given twice',
      [
        { name: 'M2', amplitude: 1, phase: 0 },
        { name: 'M2', amplitude: 1, phase: 9 },
      ],
    ],
  ])('refused: %s', (reason, constituents) => {
    const refused = harmonicTide(constituents);
    if (refused.state !== 'refused') throw new Error('refusal expected');
    expect(refused.reason.toLowerCase()).toContain(reason.toLowerCase());
  });

  test('a mean level that is no number is refused too', () => {
    expect(harmonicTide(MONTEREY, Number.NaN)).toMatchObject({ state: 'refused' });
  });
});

describe('under-keel clearance', () => {
  test('now and at low water', () => {
    expect(underKeel(4.2, 0, 1.9)).toBeCloseTo(2.3, 9);
    expect(underKeel(4.2, -1.5, 1.9)).toBeCloseTo(0.8, 9);
  });

  test('over time: least at low water; what the tide table does not cover is left out', () => {
    const high = { at: 0, height: 3 };
    const low = { at: 22_000, height: 1 };
    const request = {
      depthNow: 5,
      now: 0,
      draft: 1.9,
      height: (at: number) => heightBetween(high, low, at),
      from: 0,
      until: 40_000,
      step: 1000,
    };
    const { points, least } = clearanceOver(request);
    expect(points).toHaveLength(23);
    expect(least).toEqual({ at: 22_000, depth: 3, underKeel: expect.closeTo(1.1, 9) });
    expect(clearanceOver({ ...request, shoalest: 0.6 }).least!.underKeel).toBeCloseTo(0.5, 9);
    expect(clearanceOver({ ...request, now: -5 })).toEqual({ points: [] });
    expect(clearanceOver({ ...request, step: 0 })).toEqual({ points: [] });
  });
});
