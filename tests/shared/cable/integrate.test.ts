import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { hangUnder } from '../../../shared/cable/catenary.ts';
import { rodeUnder } from '../../../shared/cable/rode.ts';
import { carried, yacht } from './help.ts';
import { march } from './integrate.ts';

const RADIAN = Math.PI / 180;

describe('closed forms against marching the differential equations', () => {
  test.each([
    [2.3, 9.5, 50, 1000],
    [2.3, 9.5, 50, 4000],
    [1.4, 7, 30, 500],
    [1.4, 7, 30, 1500],
    [1.4, 6, 18, 1000],
  ])('%d kg/m, h %d, L %d, H %d', (mass, h, L, H) => {
    const hang = yacht(mass, h, L);
    const shape = carried(hangUnder(hang, H));
    const start = H * Math.tan(shape.angleAtAnchor * RADIAN);
    const end = march([{ length: shape.suspended, weight: hang.weight }], H, start);
    expect(end.z).toBeCloseTo(h, 8);
    expect(end.x + shape.onBottom).toBeCloseTo(shape.reach, 8);
    expect(Math.hypot(end.up, H)).toBeCloseTo(shape.tensionAtRoller, 6);
  });

  test('any yacht’s cable', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 30, noNaN: true }),
        fc.double({ min: 1.2, max: 12, noNaN: true }),
        fc.double({ min: 5, max: 60, noNaN: true }),
        fc.double({ min: 10, max: 20_000, noNaN: true }),
        (height, scope, weight, H) => {
          const shape = carried(hangUnder({ length: height * scope, height, weight }, H));
          const start = H * Math.tan(shape.angleAtAnchor * RADIAN);
          const end = march([{ length: shape.suspended, weight }], H, start, 2000);
          expect(end.z / height).toBeCloseTo(1, 6);
          expect((end.x + shape.onBottom) / shape.reach).toBeCloseTo(1, 6);
        },
      ),
      { numRuns: 100, seed: 11 },
    );
  });

  test('chain with rope behind it, stretching, all off the bottom', () => {
    const parts = [
      { length: 20, weight: 19, stiffness: 8e6 },
      { length: 30, weight: 0.15, stiffness: 40_000 },
    ];
    const H = 3000;
    const shape = carried(rodeUnder({ parts, height: 9 }, H));
    expect(shape.state).toBe('lifted');
    const end = march(parts, H, H * Math.tan(shape.angleAtAnchor * RADIAN));
    expect(end.z).toBeCloseTo(9, 7);
    expect(end.x).toBeCloseTo(shape.reach, 7);
    expect(Math.hypot(end.up, H)).toBeCloseTo(shape.tensionAtRoller, 6);
  });

  test('chain with rope behind it, some chain on the bottom', () => {
    const H = 600;
    const shape = carried(
      rodeUnder(
        {
          height: 8,
          parts: [
            { length: 30, weight: 12 },
            { length: 25, weight: 0.15 },
          ],
        },
        H,
      ),
    );
    expect(shape.state).toBe('grounded');
    const end = march(
      [
        { length: shape.suspended - 25, weight: 12 },
        { length: 25, weight: 0.15 },
      ],
      H,
      0,
    );
    expect(end.z).toBeCloseTo(8, 7);
    expect(end.x + shape.onBottom).toBeCloseTo(shape.reach, 7);
  });

  test('a sloping bottom: touch-down is tangent to it', () => {
    for (const slope of [10, -5]) {
      const shape = carried(rodeUnder({ height: 9, slope, parts: [{ length: 50, weight: 19 }] }, 700));
      const start = 700 * Math.tan(slope * RADIAN);
      const end = march([{ length: shape.suspended, weight: 19 }], 700, start);
      expect(end.z + shape.onBottom * Math.sin(slope * RADIAN)).toBeCloseTo(9, 7);
      expect(end.x + shape.onBottom * Math.cos(slope * RADIAN)).toBeCloseTo(shape.reach, 7);
    }
  });
});
