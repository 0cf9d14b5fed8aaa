import { describe, expect, test } from 'vitest';
import { hang } from '../../../server/simulate/catenary.ts';
import { hangAt } from '../../../shared/cable/catenary.ts';

/** As good as no stretch at all. */
const RIGID = 1e15;

/** seamanship-physics.md §1.6, yacht cases A to E [C]: closed form, equal to an ODE solution to all digits shown. */
const CASES: [string, number, number, number, number, number, number, number][] = [
  // case, w N/m, h m, L m, H N, L_bed m, x m, θ_A °
  ['A', 19.610177, 9.5, 50, 1000, 17.455651, 48.118526, 0],
  ['B', 19.610177, 9.5, 50, 4000, 0, 48.971505, 4.138577],
  ['C', 11.936629, 7, 30, 500, 4.792259, 28.683425, 0],
  ['D', 11.936629, 7, 30, 1500, 0, 29.106795, 6.967094],
  ['E', 11.936629, 6, 18, 1000, 0, 16.94168, 13.924705],
];

describe('the simulator’s own cable', () => {
  test.each(CASES)('hangs as in case %s', (_, weight, height, length, pull, onBottom, span, angle) => {
    const found = hang({ length, weight, spring: RIGID }, span, height, 0);
    // The spans are printed to a micrometre: as much pull as that is worth where the cable is nearly taut.
    expect(found.pull / pull).toBeCloseTo(1, 4);
    expect(found.onBottom).toBeCloseTo(onBottom, 3);
    expect((Math.atan(found.rises) * 180) / Math.PI).toBeCloseTo(angle, 2);
  });

  test('lifts off where the reference says: (9.5, 50, 2.3 kg/m) at 2487.138089 N and 48.787841 m [C]', () => {
    const line = { length: 50, weight: 19.610177, spring: RIGID };
    expect(hang(line, 48.787841, 9.5, 0).pull).toBeCloseTo(2487.138, 1);
    expect(hang(line, 48.7, 9.5, 0).onBottom).toBeGreaterThan(0);
    expect(hang(line, 48.8, 9.5, 0).onBottom).toBe(0);
  });

  test('agrees with shared/cable, which was made apart from it, from slack to nearly taut and from any guess', () => {
    for (const [length, height, weight] of [
      [50, 9.5, 19.6],
      [30, 7, 11.9],
      [18, 6, 11.9],
      [60, 21, 26.4],
    ] as const) {
      const taut = Math.sqrt(length ** 2 - height ** 2);
      for (let part = 0.02; part < 0.999; part += 0.02) {
        const span = length - height + (taut - length + height) * part;
        const theirs = hangAt({ length, height, weight }, span);
        if (theirs.state === 'infeasible' || theirs.state === 'taut') throw new Error(`no shape at ${span}`);
        for (const guess of [0, 1e-3, 50, 1e4]) {
          const ours = hang({ length, weight, spring: RIGID }, span, height, guess);
          expect(Math.abs(ours.pull - theirs.horizontal)).toBeLessThan(1e-3 * theirs.horizontal + 1e-3);
        }
      }
    }
  });

  test('gives by its spring: 6, 24 and 61 mm at 1, 4 and 10 kN for 10 mm chain, 50 m, h 9.5 (§1.5 [C])', () => {
    const elastic = { length: 50, weight: 19.610177, spring: (0.854e11 * 0.01 ** 2) / 50 };
    const rigid = { ...elastic, spring: RIGID };
    for (const [pull, give] of [
      [1000, 0.006],
      [4000, 0.024],
      [10_000, 0.061],
    ] as const) {
      const spanOf = (line: typeof rigid) => {
        let [low, high] = [40.5, 60];
        for (let i = 0; i < 60; i++) {
          const span = (low + high) / 2;
          const rigidLimit = line.spring === RIGID && span >= Math.sqrt(50 ** 2 - 9.5 ** 2);
          if (rigidLimit || hang(line, span, 9.5, 0).pull > pull) high = span;
          else low = span;
        }
        return low;
      };
      expect(spanOf(elastic) - spanOf(rigid)).toBeCloseTo(give, 2);
    }
  });

  test('is slack, not negative, within the length that need not hang', () => {
    expect(hang({ length: 30, weight: 12, spring: RIGID }, 22, 7, 5)).toEqual({
      pull: 0,
      a: 0,
      onBottom: 23,
      rises: 0,
    });
  });
});
