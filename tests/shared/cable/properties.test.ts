import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { give, hangAt, hangUnder, reaches } from '../../../shared/cable/catenary.ts';
import type { Hang } from '../../../shared/cable/shape.ts';
import { allFinite, carried } from './help.ts';

/** Any cable a boat may have, and some that none has: 1 to 300 m above the bottom, scope 1.001 to 100, 0.1 to 2000 N/m. */
const anyHang: fc.Arbitrary<Hang> = fc
  .record({
    height: fc.double({ min: 1, max: 300, noNaN: true }),
    scope: fc.double({ min: Math.log(1.001), max: Math.log(100), noNaN: true }).map(Math.exp),
    weight: fc.double({ min: Math.log(0.1), max: Math.log(2000), noNaN: true }).map(Math.exp),
  })
  .map(({ height, scope, weight }) => ({ height, weight, length: height * scope }));

/** Pull as a multiple of the weight of cable as long as its chord, from a breath to far beyond any chain's strength. */
const anyPull = fc.double({ min: Math.log(1e-4), max: Math.log(1e3), noNaN: true }).map(Math.exp);
const chord = ({ length, height }: Hang): number => Math.sqrt((length - height) * (length + height));
const runs = { numRuns: 3000, seed: 20261125 };

describe('catenary, any cable', () => {
  test('the inverse undoes the forward way over the whole range', () => {
    fc.assert(
      fc.property(anyHang, anyPull, (hang, share) => {
        const H = share * hang.weight * chord(hang);
        const shape = hangUnder(hang, H);
        if (shape.state === 'taut' || shape.state === 'infeasible') throw new Error(shape.state);
        const back = hangAt(hang, shape.reach);
        if (shape.state === 'slack' || back.state === 'slack') {
          // So light a pull that the reach is L − h to the last digits.
          expect(shape.reach - (hang.length - hang.height)).toBeLessThan(1e-9 * hang.length);
          return;
        }
        if (back.state !== 'grounded' && back.state !== 'lifted') throw new Error(back.state);
        // The reach is a float: an error of one digit in it moves the pull by give⁻¹.
        const digit = (8 * Number.EPSILON * hang.length) / give(hang, H);
        expect(Math.abs(back.horizontal - H)).toBeLessThan(1e-9 * H + digit);
      }),
      runs,
    );
  });

  test('more pull: further away, flatter at the roller, never less angle at the anchor', () => {
    fc.assert(
      fc.property(anyHang, anyPull, fc.double({ min: 1.001, max: 4, noNaN: true }), (hang, share, more) => {
        const H = share * hang.weight * chord(hang);
        const light = carried(hangUnder(hang, H));
        const strong = carried(hangUnder(hang, H * more));
        const digit = 1e-12 * hang.length;
        expect(strong.reach).toBeGreaterThanOrEqual(light.reach - digit);
        expect(strong.angleAtRoller).toBeLessThanOrEqual(light.angleAtRoller + 1e-9);
        expect(strong.angleAtAnchor).toBeGreaterThanOrEqual(light.angleAtAnchor - 1e-9);
        expect(strong.onBottom).toBeLessThanOrEqual(light.onBottom + digit);
      }),
      runs,
    );
  });

  test('everything is continuous across lift-off, and the limits order themselves', () => {
    fc.assert(
      fc.property(anyHang, (hang) => {
        const ends = reaches(hang);
        if (ends.state !== 'reaches') throw new Error(ends.reason);
        expect(ends.slack).toBeLessThanOrEqual(ends.liftOffReach);
        expect(ends.liftOffReach).toBeLessThanOrEqual(ends.taut);
        const below = carried(hangUnder(hang, ends.liftOff * (1 - 1e-9)));
        const above = carried(hangUnder(hang, ends.liftOff * (1 + 1e-9)));
        expect(below.state).toBe('grounded');
        expect(above.state).toBe('lifted');
        for (const key of ['reach', 'suspended', 'tensionAtRoller', 'tensionAtAnchor'] as const) {
          expect(Math.abs(above[key] / below[key] - 1)).toBeLessThan(1e-7);
        }
        expect(Math.abs(above.angleAtRoller - below.angleAtRoller)).toBeLessThan(1e-5);
        expect(above.angleAtAnchor).toBeLessThan(1e-4);
        const stiff = [give(hang, ends.liftOff * (1 - 1e-9)), give(hang, ends.liftOff * (1 + 1e-9))];
        expect(Math.abs(stiff[1]! / stiff[0]! - 1)).toBeLessThan(1e-4);
      }),
      runs,
    );
  });

  test('give is the slope of the reach', () => {
    fc.assert(
      fc.property(anyHang, fc.double({ min: -4, max: 4, noNaN: true }), (hang, logShare) => {
        const H = Math.exp(logShare) * hang.weight * chord(hang);
        const step = 1e-3 * H;
        const reach = (pull: number) => carried(hangUnder(hang, pull)).reach;
        const slope = (reach(H + step) - reach(H - step)) / (2 * step);
        const digit = (8 * Number.EPSILON * hang.length) / step;
        expect(Math.abs(slope - give(hang, H))).toBeLessThan(2e-3 * give(hang, H) + digit);
      }),
      runs,
    );
  });

  test('scale: a cable twice as large in all lengths and loads hangs alike', () => {
    fc.assert(
      fc.property(anyHang, anyPull, (hang, share) => {
        const H = share * hang.weight * chord(hang);
        const one = carried(hangUnder(hang, H));
        const two = carried(
          hangUnder({ length: 2 * hang.length, height: 2 * hang.height, weight: 3 * hang.weight }, 6 * H),
        );
        expect(two.reach / one.reach).toBeCloseTo(2, 9);
        expect(two.tensionAtRoller / one.tensionAtRoller).toBeCloseTo(6, 9);
        expect(two.angleAtRoller).toBeCloseTo(one.angleAtRoller, 6);
      }),
      runs,
    );
  });

  test('any finite numbers give a state and no NaN', () => {
    const any = fc.double({ noNaN: true, noDefaultInfinity: true });
    fc.assert(
      fc.property(any, any, any, any, (length, height, weight, x) => {
        const hang = { length, height, weight };
        expect(allFinite(hangUnder(hang, x))).toBe(true);
        expect(allFinite(hangAt(hang, x))).toBe(true);
        expect(allFinite(reaches(hang))).toBe(true);
        expect(Number.isFinite(give(hang, x))).toBe(true);
      }),
      { numRuns: 5000, seed: 3 },
    );
    const sane = fc.double({ min: 1e-3, max: 1e4, noNaN: true });
    fc.assert(
      fc.property(sane, sane, sane, sane, (length, height, weight, x) => {
        const hang = { length, height, weight };
        expect(allFinite([hangUnder(hang, x), hangAt(hang, x), reaches(hang), give(hang, x)])).toBe(true);
      }),
      { numRuns: 5000, seed: 4 },
    );
  });
});
