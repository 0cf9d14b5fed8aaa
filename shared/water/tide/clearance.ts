/** Water between keel and bottom, m: depth now from the surface, plus rise (or minus fall) of the tide until then, minus draft. */
export const underKeel = (depthNow: number, riseUntilThen: number, draft: number): number =>
  depthNow + riseUntilThen - draft;

export interface ClearancePoint {
  at: number;
  depth: number;
  underKeel: number;
}

/**
 * Depth and under-keel clearance over time where `depthNow` (m, from the surface) was measured at `now`, for a tide `height(at)`
 * (m; undefined where it is not known: such moments are left out). `step` and times in seconds. `shoalest` (m, ≥ 0): how much less
 * water than here there is anywhere she can swing to.
 */
export function clearanceOver(request: {
  depthNow: number;
  now: number;
  draft: number;
  height: (at: number) => number | undefined;
  from: number;
  until: number;
  step: number;
  shoalest?: number;
}): { points: ClearancePoint[]; least?: ClearancePoint } {
  const { depthNow, now, draft, height, from, until, step, shoalest = 0 } = request;
  const heightNow = height(now);
  const points: ClearancePoint[] = [];
  if (heightNow === undefined || !(step > 0) || !(until >= from)) return { points };
  const count = Math.min(MOST_POINTS, Math.floor((until - from) / step));
  let least: ClearancePoint | undefined;
  for (let index = 0; index <= count; index++) {
    const at = from + index * step;
    const then = height(at);
    if (then === undefined) continue;
    const depth = depthNow + then - heightNow - shoalest;
    const point = { at, depth, underKeel: depth - draft };
    points.push(point);
    if (!least || point.underKeel < least.underKeel) least = point;
  }
  return least ? { points, least } : { points };
}

const MOST_POINTS = 10_000;
