import { distanceBearing } from '../earth/geodesic.ts';
import { NEIGHBOURS } from './limits.ts';
import type { Target } from './state.ts';

export interface Dragging {
  /** Metres beyond where her cable could hold her. */
  beyond: number;
  speed: number;
  toward: number;
}

/**
 * Does a vessel at anchor drag? She does when she has left the circle about the guess of her anchor by more than the guess may be
 * wrong, and goes on moving, slowly: faster, she is under way. `radius` is her circle for her antenna, m. The same idea as for
 * ourselves, with less to go by.
 */
export function dragging(target: Target, radius: number): Dragging | undefined {
  const { anchor, place, places } = target;
  if (!anchor || !place) return undefined;
  const beyond = distanceBearing(anchor, place).distance - radius;
  if (beyond < NEIGHBOURS.dragBeyond + NEIGHBOURS.dragShare * radius) return undefined;
  const before = places.findLast((kept) => target.at - kept.at >= NEIGHBOURS.dragOver / 2);
  if (!before || target.at - before.at > 2 * NEIGHBOURS.dragOver) return undefined;
  const { distance, bearing } = distanceBearing(before, place);
  const speed = distance / (target.at - before.at);
  if (speed < NEIGHBOURS.dragSpeed.least || speed > NEIGHBOURS.dragSpeed.most) return undefined;
  return { beyond, speed, toward: bearing };
}
