import { describe, expect, test } from 'vitest';
import { localPlane } from '../../../../shared/earth/local.ts';
import { anchorView, dragUnseen } from '../../../../shared/watch/drag/drag.ts';
import type { WatchState } from '../../../../shared/watch/state.ts';
import { MARK, START } from '../help.ts';

/** The anchor as told to people, from a story made by hand: where it lies, how sure, and which way. */
interface Told {
  east?: number;
  north?: number;
  varEast?: number;
  varNorth?: number;
  covariance?: number;
  metres: number;
  sigma: number;
  along: { east: number; north: number };
}

function told({
  east = 0,
  north = 0,
  varEast = 1,
  varNorth = 1,
  covariance = 0,
  metres,
  sigma,
  along,
}: Told) {
  const p = new Array<number>(36).fill(0);
  p[0] = varEast;
  p[1] = covariance;
  p[6] = covariance;
  p[7] = varNorth;
  const mark = { ...MARK, sigma: 2, at: START, by: 'Ann', how: 'here' as const };
  const drag = {
    holds: { x: [east, north, 0, 0, 0, 0], p, at: START },
    against: { at: START, metres, sigma, sigmas: metres / sigma, ...along, reading: undefined },
  };
  return anchorView({ mark, drag } as unknown as WatchState)!;
}
const EAST = { east: 1, north: 0 };
const NORTH = { east: 0, north: 1 };

describe('an anchor that has moved', () => {
  test('lies so many metres along the pull from where it was held to be', () => {
    for (const [along, bearing] of [
      [EAST, 90],
      [NORTH, 0],
      [{ east: -1, north: 0 }, 270],
      [{ east: 0, north: -1 }, 180],
      [{ east: 0.6, north: 0.8 }, 36.8699],
    ] as const) {
      const view = told({ east: 3, north: -2, metres: 30, sigma: 2, along });
      expect(view.probability).toBeGreaterThan(0.999);
      expect(view.moved).toBeCloseTo(30, 1);
      expect(view.bearing).toBeCloseTo(bearing, 3);
      expect(view.east).toBeCloseTo(3 + 30 * along.east, 1);
      expect(view.north).toBeCloseTo(-2 + 30 * along.north, 1);
      const there = localPlane(MARK).toLocal(view);
      expect(there.east).toBeCloseTo(view.east, 6);
      expect(there.north).toBeCloseTo(view.north, 6);
    }
  });

  test('is the likelier the farther, against the same uncertainty, and the surer that is', () => {
    const probability = (metres: number, sigma: number) => told({ metres, sigma, along: EAST }).probability;
    expect(probability(3, 3)).toBeLessThan(0.1);
    expect(probability(6, 3)).toBeGreaterThan(probability(3, 3));
    expect(probability(15, 3)).toBeGreaterThan(0.9);
    expect(probability(6, 1.5)).toBeGreaterThan(probability(6, 3));
    expect(probability(6, 6)).toBeLessThan(probability(6, 3));
  });

  test('nearer than it should let her lie is no movement, however near, and has no direction', () => {
    const near = told({ east: 3, north: -2, metres: -4, sigma: 2, along: EAST });
    expect(near.moved).toBe(0);
    expect(near).not.toHaveProperty('bearing');
    expect([near.east, near.north]).toEqual([3, -2]);
    expect(near.probability).toBeLessThan(0.05);
    expect(told({ metres: -40, sigma: 2, along: EAST }).probability).toBe(near.probability);
  });
});

describe('its ellipse', () => {
  /** 0 and 180 are one axis. */
  const axis = (bearing: number): number => bearing % 180;
  const quiet = { metres: -1, sigma: 0.5, along: NORTH };

  test('is that of the held anchor while nothing is known beyond it: axes and their direction', () => {
    const wide = told({ ...quiet, varEast: 9, varNorth: 4 }).ellipse;
    expect(wide.major).toBeCloseTo(3, 9);
    expect(wide.minor).toBeCloseTo(2, 9);
    expect(axis(wide.bearing)).toBeCloseTo(90, 6);
    const tall = told({ ...quiet, varEast: 4, varNorth: 9 }).ellipse;
    expect(tall.major).toBeCloseTo(3, 9);
    expect(Math.min(axis(tall.bearing), 180 - axis(tall.bearing))).toBeCloseTo(0, 6);
  });

  test('leans to the north-east when both errors go together, to the north-west when they go apart', () => {
    // Eigenvalues of (2.5, ±1.5; ±1.5, 2.5): 4 and 1.
    for (const [covariance, bearing] of [
      [1.5, 45],
      [-1.5, 135],
    ] as const) {
      const { ellipse } = told({ ...quiet, varEast: 2.5, varNorth: 2.5, covariance });
      expect(ellipse.major).toBeCloseTo(2, 9);
      expect(ellipse.minor).toBeCloseTo(1, 9);
      expect(axis(ellipse.bearing)).toBeCloseTo(bearing, 6);
    }
    // (5, 2; 2, 2): eigenvalues 6 and 1, the major one along (2, 1): 63.435° from north.
    const { ellipse } = told({ ...quiet, varEast: 5, varNorth: 2, covariance: 2 });
    expect(ellipse.major ** 2).toBeCloseTo(6, 9);
    expect(ellipse.minor ** 2).toBeCloseTo(1, 9);
    expect(axis(ellipse.bearing)).toBeCloseTo(63.4349, 3);
  });

  test('is stretched along the pull to what is known of the movement, not by it on top', () => {
    for (const along of [EAST, NORTH, { east: 0.6, north: 0.8 }, { east: -0.6, north: 0.8 }]) {
      const { ellipse } = told({ metres: 10, sigma: 3, along });
      expect(ellipse.major).toBeCloseTo(3, 9);
      expect(ellipse.minor).toBeCloseTo(1, 9);
      const pull = ((Math.atan2(along.east, along.north) * 180) / Math.PI + 360) % 180;
      expect(axis(ellipse.bearing + 90 - pull + 360)).toBeCloseTo(90, 4);
    }
  });
});

describe('why drag is not judged', () => {
  const mark = { ...MARK, sigma: 2, at: START, by: 'Ann', how: 'here' as const };
  const known = { value: MARK, at: START, age: 0, source: 'test', sigma: 1 };
  const afloat = { at: START, roller: known, ages: {}, sources: {} };
  const doubt = { positionDoubt: { reason: 'it jumped', since: START } };
  const ask = (state: object, vessel: object = afloat) =>
    dragUnseen({ phase: 'watching', mark, drag: {}, ...state } as unknown as WatchState, vessel as never);

  test('is told while she is watched: a doubtful position, a cable not yet known, a mark that does not fit', () => {
    expect(ask({}, { ...afloat, ...doubt })).toMatch(/doubtful/);
    expect(ask({ drag: { fits: true }, ...{} }, { ...afloat, ...doubt })).toMatch(/doubtful/);
    expect(ask({})).toEqual(expect.any(String));
    expect(ask({ drag: { fits: true } })).toBeUndefined();
  });

  test('and not while weighing, without a mark, or while nothing is seen at all', () => {
    expect(ask({ phase: 'weighing' })).toBeUndefined();
    expect(ask({ phase: 'no-mark' })).toBeUndefined();
    expect(ask({ mark: undefined })).toBeUndefined();
    expect(ask({ drag: undefined })).toBeUndefined();
    const { roller: _, ...blind } = afloat;
    expect(ask({}, blind)).toBeUndefined();
  });
});
