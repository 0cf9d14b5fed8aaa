import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { clearOf, clearWater, hullLine } from '../../../shared/neighbours/hull.ts';
import { passing } from '../../../shared/neighbours/passing.ts';
import { outOfStepLeast, type Swinging, togetherLeast } from '../../../shared/neighbours/swing.ts';
import { add, towards, type Vector } from '../../../shared/quantities/vector.ts';

/** Plane geometry, checked against what can be seen on paper and against what must hold whatever the figures. */

const extent = { toBow: 0, toStern: 10, toPort: 2, toStarboard: 2 };
const metres = (most: number) => fc.double({ min: -most, max: most, noNaN: true });
const point = fc.record({ east: metres(200), north: metres(200) });
const heading = fc.double({ min: 0, max: 359.9, noNaN: true });
const boat = fc.record({
  anchor: point,
  reach: fc.double({ min: 5, max: 80, noNaN: true }),
  length: fc.double({ min: 5, max: 30, noNaN: true }),
  beam: fc.double({ min: 1, max: 6, noNaN: true }),
});

/** The same picture turned about the origin. */
const turned = (v: Vector, by: number): Vector => {
  const size = Math.hypot(v.east, v.north);
  const d = (Math.atan2(v.east, v.north) * 180) / Math.PI;
  return towards(size, d + by);
};

describe('hulls', () => {
  test('two boats abreast, bow to stern, and across', () => {
    const ours = hullLine({ east: 0, north: 0 }, 0, extent);
    expect(clearWater(ours, hullLine({ east: 20, north: 0 }, 0, extent))).toBeCloseTo(16, 9);
    // Astern of us: our stern is at −10, her bow at −15.
    expect(clearWater(ours, hullLine({ east: 0, north: -15 }, 0, extent))).toBeCloseTo(5 - 4, 9);
    expect(clearWater(ours, hullLine({ east: -5, north: -5 }, 90, extent))).toBeCloseTo(5 - 4, 9);
    expect(clearWater(ours, hullLine({ east: 5, north: -5 }, 90, { ...extent, toStern: 20 }))).toBe(-4);
  });

  test('an antenna aft and to port of the middle', () => {
    const hull = hullLine({ east: 0, north: 0 }, 90, { toBow: 30, toStern: 10, toPort: 2, toStarboard: 6 });
    expect(hull.bow.east).toBeCloseTo(30, 9);
    expect(hull.bow.north).toBeCloseTo(-2, 9);
    expect(hull.stern.east).toBeCloseTo(-10, 9);
    expect(hull.half).toBe(4);
    expect(clearOf(hull, { east: 0, north: -2 })).toBe(0);
    expect(clearOf(hull, { east: 40, north: -2 })).toBeCloseTo(6, 9);
  });

  test('without heading she may lie any way: a round of her greatest length', () => {
    const hull = hullLine({ east: 0, north: 0 }, undefined, { ...extent, toBow: 3 });
    expect(clearOf(hull, { east: 25, north: 0 })).toBeCloseTo(15, 9);
  });

  test('property: clear water is the same seen from either, and whichever way the picture is turned', () => {
    fc.assert(
      fc.property(point, heading, point, heading, heading, (a, ha, b, hb, by) => {
        const one = hullLine(a, ha, extent);
        const other = hullLine(b, hb, extent);
        expect(clearWater(one, other)).toBeCloseTo(clearWater(other, one), 6);
        const oneTurned = hullLine(turned(a, by), ha + by, extent);
        const otherTurned = hullLine(turned(b, by), hb + by, extent);
        expect(clearWater(oneTurned, otherTurned)).toBeCloseTo(clearWater(one, other), 4);
      }),
    );
  });
});

describe('swinging', () => {
  test('alike boats that swing together keep the distance between their anchors, less their beam', () => {
    const a: Swinging = { anchor: { east: 0, north: 0 }, reach: 30, length: 12, beam: 4 };
    // In line, one lies astern of the other: 60 − 12 between bow and stern.
    expect(togetherLeast(a, { ...a, anchor: { east: 60, north: 0 } })).toBeCloseTo(60 - 12 - 4, 1);
    expect(outOfStepLeast(a, { ...a, anchor: { east: 60, north: 0 } })).toBeCloseTo(
      60 - 2 * Math.hypot(42, 2),
      6,
    );
  });

  test('property: in step is never closer than out of step, nor farther than the anchors allow', () => {
    fc.assert(
      fc.property(boat, boat, (a, b) => {
        const together = togetherLeast(a, b);
        expect(together).toBeGreaterThanOrEqual(outOfStepLeast(a, b) - 1e-6);
        const apart = Math.hypot(a.anchor.east - b.anchor.east, a.anchor.north - b.anchor.north);
        expect(together).toBeLessThanOrEqual(apart + Math.abs(a.reach - b.reach) + 1e-6);
      }),
    );
  });

  test('property: the search misses the least of a fine scan by less than 10 cm', () => {
    fc.assert(
      fc.property(boat, boat, (a, b) => {
        let finest = Number.POSITIVE_INFINITY;
        for (let away = 0; away < 360; away += 0.25) {
          const hull = (one: Swinging) =>
            hullLine(add(one.anchor, towards(one.reach, away)), away + 180, {
              toBow: 0,
              toStern: one.length,
              toPort: one.beam / 2,
              toStarboard: one.beam / 2,
            });
          finest = Math.min(finest, clearWater(hull(a), hull(b)));
        }
        expect(togetherLeast(a, b)).toBeLessThan(finest + 0.1);
      }),
      { numRuns: 200 },
    );
  });
});

describe('passing', () => {
  const ours = hullLine({ east: 0, north: 0 }, 0, extent);

  test('abeam at 50 m, coming from the south at 2 m/s', () => {
    const hers = hullLine({ east: 50, north: -200 }, 0, { toBow: 5, toStern: 5, toPort: 2, toStarboard: 2 });
    const past = passing(ours, hers, { east: 0, north: 2 }, 240)!;
    expect(past.distance).toBeCloseTo(46, 6);
    expect(past.in).toBeGreaterThan(80);
    expect(past.in).toBeLessThan(105);
  });

  test('going away: nothing', () => {
    const hers = hullLine({ east: 50, north: 50 }, 0, extent);
    expect(passing(ours, hers, { east: 1, north: 1 }, 240)).toBeUndefined();
  });
});
