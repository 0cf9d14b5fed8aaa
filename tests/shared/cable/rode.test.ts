import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { hangAt, hangUnder } from '../../../shared/cable/catenary.ts';
import { rodeAt, rodeUnder } from '../../../shared/cable/rode.ts';
import { allFinite, carried } from './help.ts';

describe('published lines', () => {
  test('MoorPy tests/test_catenary.py @30b7fc4 [F]: x 400, z 200, L 500, EA 7.51e12, w 800', () => {
    const parts = [{ length: 500, weight: 800, stiffness: 7.51e12 }];
    const rough = carried(rodeAt({ parts, height: 200, friction: 5 }, 400));
    expect(rough.horizontal / 96_643.43501616).toBeCloseTo(1, 6);
    expect(Math.sqrt(rough.tensionAtRoller ** 2 - rough.horizontal ** 2) / 237_751.7599744).toBeCloseTo(1, 6);
    expect(rough.onBottom / 202.81030003).toBeCloseTo(1, 6);
    expect(rough.tensionAtAnchor).toBe(0);
    const smooth = carried(rodeAt({ parts, height: 200, friction: 0.1 }, 400));
    expect(smooth.tensionAtAnchor / 80_418.60434855).toBeCloseTo(1, 6);
  });

  const WEIGHT = 902.2 * 698.094;
  const hywind = [{ length: 902.2, weight: 698.094, stiffness: 384_243_000 }];

  test('OC3-Hywind line (Jonkman, NREL/TP-500-47535 [F]), all hanging: H = V = 1.1·wL', () => {
    const shape = carried(rodeUnder({ parts: hywind, height: 407.868641067 }, 1.1 * WEIGHT));
    expect(shape.reach).toBeCloseTo(786.223280824, 6);
    expect(shape.angleAtRoller).toBeCloseTo(45, 8);
  });

  test('the same with contact and friction 0.1: H = V = 0.9·wL', () => {
    const shape = carried(rodeUnder({ parts: hywind, height: 336.932048, friction: 0.1 }, 0.9 * WEIGHT));
    // The published x is 807.207928; exact is 807.207918482 [C].
    expect(shape.reach).toBeCloseTo(807.207928, 4);
    expect(shape.reach).toBeCloseTo(807.207918482, 6);
    expect(shape.angleAtRoller).toBeCloseTo(45, 6);
    expect(shape.onBottom).toBeCloseTo(90.22, 6);
  });

  test('the same at rest: x 848.67, z 250 [C]. The reference prints its H and V the wrong way round: T² = H² + V², V = w·s', () => {
    const shape = carried(rodeAt({ parts: hywind, height: 250 }, 848.67));
    expect(shape.horizontal).toBeCloseTo(736_938.32, 2);
    expect(shape.tensionAtRoller).toBeCloseTo(911_088.36, 2);
    expect(Math.sqrt(shape.tensionAtRoller ** 2 - shape.horizontal ** 2)).toBeCloseTo(535_727.45, 1);
    expect(698.094 * shape.suspended).toBeCloseTo(535_727.45, 1);
    expect(shape.onBottom).toBeCloseTo(134.7855, 4);
  });

  test('sloping bottom [C]: x 60, z 40, L 80, w 100', () => {
    const at = (slope: number) =>
      carried(rodeAt({ parts: [{ length: 80, weight: 100 }], height: 40, slope }, 60));
    const rising = at(10);
    expect(rising.horizontal).toBeCloseTo(1309.86559, 4);
    expect(rising.onBottom).toBeCloseTo(37.367703, 5);
    expect(rising.tensionAtRoller).toBeCloseTo(4681.18903, 4);
    expect(rising.tensionAtAnchor).toBeCloseTo(681.18903, 4);
    expect(Math.sqrt(rising.tensionAtRoller ** 2 - rising.horizontal ** 2)).toBeCloseTo(4494.19435, 4);
    const falling = at(-5);
    expect(falling.horizontal).toBeCloseTo(2769.22388, 4);
    expect(falling.onBottom).toBeCloseTo(14.327048, 5);
    expect(falling.tensionAtAnchor).toBeCloseTo(2904.67032, 4);
    // Flat: the reference's 2416.003 and 20.5634 are 4e-5 off the exact closed form, which this must meet to all digits.
    const flat = at(0);
    expect(flat.horizontal / 2416.003).toBeCloseTo(1, 4);
    expect(flat.horizontal).toBeCloseTo(
      carried(hangAt({ length: 80, height: 40, weight: 100 }, 60)).horizontal,
      6,
    );
  });

  test('stretch of 10 mm chain, L 50, h 9.5: 6, 24 and 61 mm at 1, 4 and 10 kN [C], EA 0.854e11·d² [M]', () => {
    const stiff = { length: 50, weight: 19.610177 };
    for (const [H, millimetres] of [
      [1000, 6],
      [4000, 24],
      [10_000, 61],
    ] as const) {
      const soft = { ...stiff, stiffness: 0.854e11 * 0.01 ** 2 };
      const grown =
        carried(rodeUnder({ parts: [soft], height: 9.5 }, H)).reach -
        carried(rodeUnder({ parts: [stiff], height: 9.5 }, H)).reach;
      expect(Math.abs(grown * 1000 - millimetres)).toBeLessThan(1);
    }
  });
});

describe('rope behind chain', () => {
  const rode = {
    height: 8,
    parts: [
      { length: 30, weight: 12 },
      { length: 25, weight: 0.15 },
    ],
  };

  test('one cable cut in two hangs like the whole one', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 40, noNaN: true }),
        fc.double({ min: 1.3, max: 12, noNaN: true }),
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        fc.double({ min: 0, max: Math.log(2e4), noNaN: true }).map(Math.exp),
        (height, scope, cut, H) => {
          const length = height * scope;
          const parts = [length * cut, length * (1 - cut)].map((each) => ({ length: each, weight: 15 }));
          const whole = carried(hangUnder({ length, height, weight: 15 }, H));
          const two = carried(rodeUnder({ parts, height }, H));
          expect(two.reach / whole.reach).toBeCloseTo(1, 8);
          expect(two.tensionAtRoller / whole.tensionAtRoller).toBeCloseTo(1, 8);
          expect(Math.abs(two.angleAtAnchor - whole.angleAtAnchor)).toBeLessThan(1e-5);
        },
      ),
      { numRuns: 500, seed: 5 },
    );
  });

  test('all its forces are those of the closed form, lifted and grounded', () => {
    for (const H of [300, 1000, 4000, 20_000]) {
      const whole = carried(hangUnder({ length: 50, height: 9.5, weight: 19.6 }, H));
      const { state, ...forces } = carried(
        rodeUnder({ parts: [{ length: 50, weight: 19.6 }], height: 9.5 }, H),
      );
      expect(state).toBe(whole.state);
      for (const [key, value] of Object.entries(forces)) {
        expect([key, value]).toEqual([key, expect.closeTo(whole[key as keyof typeof forces], 5)]);
      }
    }
  });

  test('slack on a slope: up the bottom as far as it goes, then straight up', () => {
    for (const slope of [0, 8, -8]) {
      const shape = carried(rodeUnder({ parts: [{ length: 40, weight: 12 }], height: 8, slope }, 0));
      const radian = (slope * Math.PI) / 180;
      expect(shape.onBottom).toBeCloseTo(shape.reach / Math.cos(radian), 9);
      expect(shape.suspended).toBeCloseTo(8 - shape.reach * Math.tan(radian), 9);
      expect(shape.tensionAtRoller).toBeCloseTo(12 * shape.suspended, 9);
      // A breath of wind changes nothing much.
      const breath = carried(rodeUnder({ parts: [{ length: 40, weight: 12 }], height: 8, slope }, 1e-3));
      expect(breath.reach).toBeCloseTo(shape.reach, 2);
    }
    expect(rodeUnder(rode, -1)).toEqual({ state: 'infeasible', reason: 'not-a-cable' });
  });

  test('the anchor lifts sooner than with chain alone, later than with rope alone', () => {
    const angle = (parts: { length: number; weight: number }[]) =>
      carried(rodeUnder({ height: 8, parts }, 3000)).angleAtAnchor;
    const mixed = angle(rode.parts);
    expect(mixed).toBeGreaterThan(angle([{ length: 55, weight: 12 }]));
    expect(mixed).toBeLessThan(angle([{ length: 55, weight: 0.15 }]));
  });

  test('inverse, monotone, slack and too far', () => {
    let last = 0;
    for (let H = 0.2; H < 5e4; H *= 1.7) {
      const shape = carried(rodeUnder(rode, H));
      expect(shape.reach).toBeGreaterThan(last);
      last = shape.reach;
      expect(carried(rodeAt(rode, shape.reach)).horizontal / H).toBeCloseTo(1, 5);
    }
    expect(rodeUnder(rode, 0)).toMatchObject({ state: 'slack', reach: 47 });
    expect(rodeAt(rode, 20)).toMatchObject({ state: 'slack', reach: 20 });
    expect(rodeAt(rode, 54.5)).toEqual({ state: 'infeasible', reason: 'too-far' });
    expect(rodeAt({ ...rode, height: 56 }, 20)).toEqual({ state: 'infeasible', reason: 'too-short' });
  });

  test('any numbers give a state and no NaN', () => {
    const any = fc.oneof(
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.double({ min: 1e-3, max: 1e4, noNaN: true }),
    );
    const part = fc.record({ length: any, weight: any });
    fc.assert(
      fc.property(
        fc.array(part, { maxLength: 3 }),
        any,
        any,
        fc.double({ min: -80, max: 80, noNaN: true }),
        (parts, height, x, slope) => {
          expect(allFinite(rodeUnder({ parts, height, slope }, x))).toBe(true);
          expect(allFinite(rodeAt({ parts, height, slope }, x))).toBe(true);
        },
      ),
      { numRuns: 1000, seed: 9 },
    );
  });
});
