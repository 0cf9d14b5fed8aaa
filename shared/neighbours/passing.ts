import { add, scale, type Vector } from '../quantities/vector.ts';
import { clearWater, type HullLine } from './hull.ts';

const moved = (hull: HullLine, by: Vector): HullLine => ({
  bow: add(hull.bow, by),
  stern: add(hull.stern, by),
  half: hull.half,
});

/** Seconds looked ahead in one step of the search. */
const STEP = 2;

/**
 * Least clear water (m) to a vessel that keeps her velocity (m/s east and north) while we stay, within the next `within` seconds, and
 * in how many seconds. Undefined when she is nearest now: she goes away.
 */
export function passing(
  ours: HullLine,
  hers: HullLine,
  velocity: Vector,
  within: number,
): { distance: number; in: number } | undefined {
  let best = { distance: clearWater(ours, hers), in: 0 };
  for (let t = STEP; t <= within; t += STEP) {
    const distance = clearWater(ours, moved(hers, scale(velocity, t)));
    if (distance < best.distance) best = { distance, in: t };
  }
  return best.in > 0 ? best : undefined;
}
