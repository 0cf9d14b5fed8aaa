import { describe, expect, test } from 'vitest';
import { give, hangAt, hangUnder, reaches } from '../../../shared/cable/catenary.ts';
import { allFinite, carried, yacht } from './help.ts';

/** seamanship-physics.md §1.6 [C], closed form and an ODE solver agreeing to all digits. */
type Case = [
  name: string,
  ...numbers: [number, number, number, number, number, number, number, number, number, number],
];
const CASES: Case[] = [
  // name, kg/m, h, L, H, s, on the bottom, x, θ_A, φ, T at the roller
  ['A', 2.3, 9.5, 50, 1000, 32.544349, 17.455651, 48.118526, 0, 32.546037, 1186.29668],
  ['B', 2.3, 9.5, 50, 4000, 50, 0, 48.971505, 4.138577, 17.613857, 4196.754277],
  ['C', 1.4, 7, 30, 500, 25.207741, 4.792259, 28.683425, 0, 31.039147, 583.556406],
  ['D', 1.4, 7, 30, 1500, 30, 0, 29.106795, 6.967094, 19.846248, 1594.71483],
  ['E', 1.4, 6, 18, 1000, 18, 0, 16.94168, 13.924705, 24.834319, 1101.89672],
];

describe('the reference’s yacht cases', () => {
  test.each(CASES)('case %s, forward', (_, mass, h, L, H, s, bottom, x, anchor, roller, tension) => {
    const shape = carried(hangUnder(yacht(mass, h, L), H));
    expect(shape.state).toBe(bottom > 0 ? 'grounded' : 'lifted');
    expect(shape.suspended).toBeCloseTo(s, 6);
    expect(shape.onBottom).toBeCloseTo(bottom, 6);
    expect(shape.reach).toBeCloseTo(x, 6);
    expect(shape.angleAtAnchor).toBeCloseTo(anchor, 5);
    expect(shape.angleAtRoller).toBeCloseTo(roller, 5);
    expect(shape.tensionAtRoller).toBeCloseTo(tension, 5);
  });

  test.each(CASES)('case %s, inverse', (_, mass, h, L, H) => {
    const hang = yacht(mass, h, L);
    const back = carried(hangAt(hang, carried(hangUnder(hang, H)).reach));
    expect(back.horizontal / H).toBeCloseTo(1, 12);
  });

  test.each([
    // Upward force at the anchor, N [C].
    [2.3, 9.5, 50, 4000, 289.430706],
    [1.4, 7, 30, 1500, 183.302439],
    [1.4, 6, 18, 1000, 247.932613],
  ])('%d kg/m, h %d, L %d, H %d: the anchor is pulled upwards with %d N', (mass, h, L, H, up) => {
    const shape = carried(hangUnder(yacht(mass, h, L), H));
    expect(Math.sqrt(shape.tensionAtAnchor ** 2 - H ** 2)).toBeCloseTo(up, 5);
    const atRoller = Math.sqrt(shape.tensionAtRoller ** 2 - H ** 2);
    expect(atRoller - up).toBeCloseTo(yacht(mass, h, L).weight * L, 5);
    expect(shape.tensionAtRoller - shape.tensionAtAnchor).toBeCloseTo(yacht(mass, h, L).weight * h, 6);
  });

  test.each([
    // Lift-off: H₀, φ, x, taut limit [C].
    [2.3, 9.5, 50, 2487.138089, 21.515934, 48.787841, 49.089205],
    [1.4, 7, 30, 725.576544, 26.268045, 28.898969, 29.171904],
    [1.4, 6, 18, 286.479105, 36.869898, 16.635532, 16.970563],
  ])('%d kg/m, h %d, L %d lifts at %d N', (mass, h, L, H, angle, x, taut) => {
    const hang = yacht(mass, h, L);
    const ends = reaches(hang);
    if (ends.state !== 'reaches') throw new Error(ends.reason);
    expect(ends.liftOff).toBeCloseTo(H, 5);
    expect(ends.liftOffReach).toBeCloseTo(x, 6);
    expect(ends.taut).toBeCloseTo(taut, 6);
    expect(ends.slack).toBeCloseTo(L - h, 12);
    const shape = carried(hangUnder(hang, ends.liftOff));
    expect(shape.angleAtRoller).toBeCloseTo(angle, 5);
    // φ = 2·atan(h/L) exactly.
    expect(shape.angleAtRoller).toBeCloseTo((2 * Math.atan(h / L) * 180) / Math.PI, 9);
    expect(shape.onBottom).toBeCloseTo(0, 9);
  });

  test('stiffness of case A at 500 and 1000 N [C]', () => {
    expect(1 / give(yacht(2.3, 9.5, 50), 500)).toBeCloseTo(427.25935, 4);
    expect(1 / give(yacht(2.3, 9.5, 50), 1000)).toBeCloseTo(1121.498, 3);
  });

  test('scope for no lift: C_d·A 12 m², 10 mm of 2.25 kg/m, h 6.5 and 11.5 m (§9 [C])', () => {
    const loads = [20, 30, 40].map((knots) => 0.5 * 1.225 * ((knots * 1852) / 3600) ** 2 * 12);
    const least = (h: number) => loads.map((H) => carried(hangUnder(yacht(2.25, h, 500), H)).suspended);
    [23.8646, 35.0514, 46.3823].forEach((length, k) => {
      expect(least(6.5)[k]).toBeCloseTo(length, 3);
    });
    [32.636, 47.2354, 62.1586].forEach((length, k) => {
      expect(least(11.5)[k]).toBeCloseTo(length, 3);
    });
  });
});

describe('states at the ends', () => {
  const hang = yacht(2.3, 9.5, 50);

  test('no pull: it hangs straight down and the rest lies on the bottom', () => {
    expect(hangUnder(hang, 0)).toMatchObject({
      state: 'slack',
      reach: 40.5,
      angleAtRoller: 90,
      onBottom: 40.5,
    });
    expect(hangAt(hang, 12)).toMatchObject({ state: 'slack', reach: 12, horizontal: 0 });
    expect(hangAt(hang, 0)).toMatchObject({ state: 'slack', reach: 0 });
    expect(hangAt(hang, 40.5)).toMatchObject({ state: 'slack' });
    expect(hangAt(hang, 40.6)).toMatchObject({ state: 'grounded' });
  });

  test('a straight cable is taut: its load is not told; further away than that is no place for it', () => {
    const straight = Math.sqrt(50 ** 2 - 9.5 ** 2);
    const taut = hangAt(hang, straight);
    expect(taut).toMatchObject({ state: 'taut', reach: straight });
    // asin(1/scope) for a taut cable: scope 50/9.5.
    if (taut.state === 'taut')
      expect(taut.angleAtAnchor).toBeCloseTo((Math.asin(9.5 / 50) * 180) / Math.PI, 9);
    expect(hangUnder(hang, 1e12)).toMatchObject({ state: 'taut' });
    expect(hangAt(hang, 49.0893)).toEqual({ state: 'infeasible', reason: 'too-far' });
  });

  test('what is no cable is refused', () => {
    expect(hangUnder({ length: 9, height: 9.5, weight: 20 }, 100)).toEqual({
      state: 'infeasible',
      reason: 'too-short',
    });
    for (const bad of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      const refused = { state: 'infeasible', reason: 'not-a-cable' };
      expect(hangUnder({ ...hang, length: bad }, 100)).toEqual(refused);
      expect(hangUnder({ ...hang, height: bad }, 100)).toEqual(refused);
      expect(hangUnder({ ...hang, weight: bad }, 100)).toEqual(refused);
      if (bad !== 0) expect(hangUnder(hang, bad)).toEqual(refused);
      if (bad !== 0) expect(hangAt(hang, bad)).toEqual(refused);
      expect(reaches({ ...hang, length: bad })).toEqual(refused);
      expect(give({ ...hang, length: bad }, 100)).toBe(0);
    }
  });

  test('angles of a taut cable by scope: asin(1/scope) [C]', () => {
    for (const [scope, angle] of [
      [3, 19.471],
      [4, 14.478],
      [5, 11.537],
      [7, 8.213],
      [10, 5.739],
    ] as const) {
      const shape = hangUnder({ length: 10 * scope, height: 10, weight: 20 }, 1e10);
      if (shape.state !== 'taut') throw new Error(shape.state);
      expect(shape.angleAtAnchor).toBeCloseTo(angle, 3);
    }
  });

  test('the smallest and largest numbers give numbers', () => {
    for (const H of [5e-324, 1e-300, 1e-20, 1e-9, 1e20, 1e300]) {
      expect(allFinite(hangUnder(hang, H))).toBe(true);
    }
    expect(allFinite(hangAt(hang, 40.5 + 1e-14))).toBe(true);
  });
});
