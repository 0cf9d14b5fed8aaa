import { submergedWeight } from '../cable/nature.ts';
import { radians } from '../quantities/angle.ts';
import type { Task } from './request.ts';
import { hangOf, rodeOf } from './rode.ts';

/** Least scope at high water whatever the catenary says: chain 4, with rope 6 (Bay Sea School, to force 4). */
const LEAST_SCOPE = { chain: 4, rope: 6 };
/** An upward pull of less than this at the anchor counts as none, degrees. */
const FLAT = 0.1;

export interface Veer {
  length: number;
  /** Enough for no upward pull under the load. */
  enough: boolean;
}

/** Shortest length, in whole metres, that keeps the pull on the anchor along the bottom at high water under a load (N). */
export function lengthToVeer(task: Task, load: number): Veer {
  const { request, height } = task;
  const h = height.high;
  const chainOnBoard = request.chainLength ?? Number.POSITIVE_INFINITY;
  const byChain = Math.max(lengthWithoutLift(task, load), LEAST_SCOPE.chain * h);
  if (byChain <= chainOnBoard) return { length: Math.min(Math.ceil(byChain), chainOnBoard), enough: true };
  const rope = request.ropeLength ?? 0;
  const all = chainOnBoard + rope;
  if (rope === 0 || angleWith(task, all, load) > FLAT) return { length: all, enough: false };
  let low = chainOnBoard;
  let high = all;
  while (high - low > 0.5) {
    const middle = (low + high) / 2;
    if (angleWith(task, middle, load) > FLAT) low = middle;
    else high = middle;
  }
  const withRope = Math.max(high, LEAST_SCOPE.rope * h);
  return { length: Math.min(Math.ceil(withRope), all), enough: withRope <= all + 0.5 };
}

/** Length of chain that is just all off the bottom: touch-down tangent to a bottom of slope α, u₀ = asinh(tan α) (§1.4). */
function lengthWithoutLift({ chain, height, slope }: Task, load: number): number {
  const a = load / submergedWeight(chain.massPerMetre);
  if (a < 1e-9 * height.high) return height.high;
  const tangent = Math.tan(radians(slope));
  const atRoller = height.high / a + Math.sqrt(1 + tangent * tangent);
  return a * (Math.sqrt((atRoller - 1) * (atRoller + 1)) - tangent);
}

function angleWith(task: Task, length: number, load: number): number {
  const shape = hangOf(rodeOf(task, length, task.height.high), load);
  return shape.state === 'infeasible' ? 90 : shape.angleAtAnchor;
}
