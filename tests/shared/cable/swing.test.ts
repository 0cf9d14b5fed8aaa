import { describe, expect, test } from 'vitest';
import { hangUnder } from '../../../shared/cable/catenary.ts';
import { profile } from '../../../shared/cable/profile.ts';
import { rodeUnder } from '../../../shared/cable/rode.ts';
import type { CableShape } from '../../../shared/cable/shape.ts';
import { circles, roomBetween } from '../../../shared/cable/swing.ts';
import { carried, yacht } from './help.ts';

describe('circles', () => {
  test('6 shackles of 27.5 m and a ship of 100 m: 265 m = 0.143089 M (marinegyaan.com [F], which prints 0.1431)', () => {
    const { stern } = circles(6 * 27.5, { length: 100 });
    expect(stern).toBe(265);
    expect(stern / 1852).toBeCloseTo(0.143089, 6);
  });

  test('antenna beyond the roller and off the centre line', () => {
    const ring = circles(40, { length: 12.8, antenna: { aftOfRoller: 9, toStarboard: -1.5 } });
    expect(ring).toEqual({ roller: 40, stern: 52.8, antenna: Math.hypot(49, 1.5) });
  });

  test('room between two circles', () => {
    expect(roomBetween(120, 52.8, 60)).toBeCloseTo(7.2, 9);
    expect(roomBetween(100, 52.8, 60)).toBeCloseTo(-12.8, 9);
  });
});

describe('profile for drawing', () => {
  const hang = yacht(2.3, 9.5, 50);
  const rode = { height: 9.5, parts: [{ length: 50, weight: hang.weight }] };
  const lengthOf = (points: { out: number; up: number }[]): number =>
    points
      .slice(1)
      .reduce((sum, point, k) => sum + Math.hypot(point.out - points[k]!.out, point.up - points[k]!.up), 0);

  test('it runs from the roller to the anchor, never through the bottom, and is as long as the cable', () => {
    for (const H of [50, 1000, 2487, 4000, 50_000]) {
      const shape = carried(hangUnder(hang, H));
      const points = profile(rode, shape as CableShape, 200);
      expect(points[0]).toEqual({ out: shape.reach, up: 9.5 });
      expect(points.at(-1)).toEqual({ out: 0, up: 0 });
      expect(Math.min(...points.map(({ up }) => up))).toBeGreaterThan(-1e-8);
      expect(lengthOf(points)).toBeCloseTo(50, 2);
      for (const [k, point] of points.slice(1).entries()) expect(point.out).toBeLessThan(points[k]!.out);
    }
  });

  test('it touches down where the catenary does', () => {
    const shape = hangUnder(hang, 1000) as CableShape;
    const touch = profile(rode, shape).at(-2)!;
    expect(touch.out).toBeCloseTo(17.455651, 5);
    expect(touch.up).toBeCloseTo(0, 8);
  });

  test('chain and rope, slack, taut, and none', () => {
    const mixed = {
      height: 8,
      parts: [
        { length: 30, weight: 12 },
        { length: 25, weight: 0.15 },
      ],
    };
    expect(lengthOf(profile(mixed, rodeUnder(mixed, 500), 300))).toBeCloseTo(55, 2);
    expect(profile(rode, hangUnder(hang, 0))).toEqual([
      { out: 40.5, up: 9.5 },
      { out: 40.5, up: 0 },
      { out: 0, up: 0 },
    ]);
    expect(profile(rode, hangUnder(hang, 1e12))).toHaveLength(2);
    expect(profile(rode, { state: 'infeasible', reason: 'too-far' })).toEqual([]);
  });
});
