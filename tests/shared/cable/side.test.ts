import { expect, test } from 'vitest';
import { reachNow } from '../../../shared/cable/reach.ts';
import { type SideRequest, side } from '../../../shared/cable/side.ts';

// Geometry that must hold whatever the numbers; the catenary itself is held to published values in catenary.test.ts.

const lying: SideRequest = { veered: 40, depth: 6, rollerHeight: 1.4, massPerMetre: 2.3, distance: 36 };
const lengthOf = (points: readonly { out: number; up: number }[]) =>
  points
    .slice(1)
    .reduce((sum, { out, up }, i) => sum + Math.hypot(out - points[i]!.out, up - points[i]!.up), 0);

test('the line runs from the roller, where she is measured, to the anchor, and is as long as the cable', () => {
  const { now, beyond, onBottom } = side(lying)!;
  expect(now[0]!.out).toBeCloseTo(36, 3);
  expect(now[0]!.up).toBeCloseTo(7.4, 9);
  expect(now.at(-1)).toEqual({ out: 0, up: 0 });
  expect(lengthOf(now)).toBeCloseTo(40, 0);
  expect(beyond).toBe(0);
  expect(onBottom).toBeGreaterThan(5);
});

test('a slack cable hangs down and lies on the bottom', () => {
  const { now, onBottom } = side({ ...lying, distance: 10 })!;
  expect(now).toEqual([
    { out: 10, up: 7.4 },
    { out: 10, up: 0 },
    { out: 0, up: 0 },
  ]);
  expect(onBottom).toBeCloseTo(40 - 7.4, 9);
});

test('a distance that no such cable reaches is drawn straight, and the rest told', () => {
  const { now, beyond } = side({ ...lying, distance: 45 })!;
  const taut = Math.sqrt(40 ** 2 - 7.4 ** 2);
  expect(now[0]!.out).toBeCloseTo(taut, 3);
  expect(beyond).toBeCloseTo(45 - taut, 3);
});

test('at low water, under the same pull, she lies farther out: as far as the reach says', () => {
  const { now, low } = side({ ...lying, depthLow: 3 })!;
  expect(low![0]!.up).toBeCloseTo(4.4, 9);
  expect(low![0]!.out).toBeGreaterThan(now[0]!.out);
  const most = reachNow({
    ...lying,
    depth: 3,
    boat: { hull: 'monohull', length: 10, beam: 3, draft: 1.5, windage: {} },
  });
  expect(low![0]!.out).toBeLessThan(most!.taut);
  expect(side(lying)!.low).toBeUndefined();
});

test('without a cable that reaches the bottom there is nothing to draw', () => {
  expect(side({ ...lying, veered: 7 })).toBeUndefined();
  expect(side({ ...lying, depth: Number.NaN })).toBeUndefined();
});

test('rope behind the chain hangs higher than chain would', () => {
  const rope = side({ ...lying, chainLength: 15, distance: 37 })!;
  const chain = side({ ...lying, distance: 37 })!;
  expect(rope.onBottom).toBeLessThan(chain.onBottom + 15);
  expect(rope.now[0]!.out).toBeCloseTo(37, 3);
});
