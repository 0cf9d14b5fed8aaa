import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { circularMean, direction, reciprocal, signed, turn } from '../../../shared/quantities/angle.ts';

const anyAngle = fc.double({ min: -1e6, max: 1e6, noNaN: true });

describe('directions and signed angles', () => {
  test('a direction is 0 ≤ d < 360 and a signed angle −180 < a ≤ 180, for any finite angle', () => {
    fc.assert(
      fc.property(anyAngle, (angle) => {
        const d = direction(angle);
        const s = signed(angle);
        expect(d >= 0 && d < 360).toBe(true);
        expect(s > -180 && s <= 180).toBe(true);
        expect(Object.is(d, -0)).toBe(false);
      }),
    );
    expect(direction(-1e-15)).toBe(0);
    expect(signed(180)).toBe(180);
    expect(signed(-180)).toBe(180);
  });

  test('turning from one direction by the turn arrives at the other', () => {
    fc.assert(
      fc.property(anyAngle, anyAngle, (from, to) => {
        const arrived = direction(from + turn(from, to));
        expect(Math.abs(turn(arrived, to))).toBeLessThan(1e-6);
      }),
    );
    expect(turn(350, 10)).toBe(20);
    expect(turn(10, 350)).toBe(-20);
    expect(reciprocal(270)).toBe(90);
  });

  test('the mean of directions goes through north, and is unknown when they cancel', () => {
    const mean = circularMean([350, 10]);
    expect(Math.abs(turn(mean!.mean, 0))).toBeLessThan(1e-9);
    expect(mean!.concentration).toBeCloseTo(Math.cos(Math.PI / 18), 9);
    expect(circularMean([0, 180])).toBeUndefined();
    expect(circularMean([])).toBeUndefined();
  });
});
