import { direction } from '../quantities/angle.ts';
import { add, directionOf, size, subtract, towards, type Vector } from '../quantities/vector.ts';

/** A stream: where it sets to (degrees true; absent when there is none to speak of) and how fast it drifts (m/s). */
export interface Stream {
  set?: number;
  drift: number;
}

/** Slower than this (m/s) a computed stream has no direction worth a name. */
const STILL = 0.02;

const streamOf = (vector: Vector): Stream => {
  const drift = size(vector);
  return drift < STILL ? { drift } : { set: directionOf(vector), drift };
};

/**
 * Set and drift from the boat's velocity over the ground and through the water (m/s ahead and to starboard), heading degrees
 * true: C = ground − water. A stream of VBW comes out the same way. `leeway` (degrees): wind from port pushes to starboard, positive.
 */
export function setAndDrift(
  ground: Vector,
  heading: number,
  water: { ahead: number; athwart?: number },
  leeway = 0,
): Stream {
  const through = add(
    towards(water.ahead, heading + leeway),
    towards(water.athwart ?? 0, heading + leeway + 90),
  );
  return streamOf(subtract(ground, through));
}

/** Set and drift that carried her from a dead-reckoned place to the fix (metres east and north of it) in a time (s, > 0). */
export const driftBetween = (offset: Vector, seconds: number): Stream =>
  streamOf({ east: offset.east / seconds, north: offset.north / seconds });

/** The direction that a stream comes from. */
export const streamFrom = (set: number): number => direction(set + 180);
