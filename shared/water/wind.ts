import { direction } from '../quantities/angle.ts';
import { add, directionOf, scale, size, subtract, towards, type Vector } from '../quantities/vector.ts';

/** Wind as it blows: speed m/s and, unless calm, the direction it comes from (degrees true). */
export interface Wind {
  from?: number;
  speed: number;
}

/** Below this (m/s) a computed wind has no direction worth a name. */
const CALM = 0.05;

/**
 * Wind over the ground from the apparent wind (angle off the bow, starboard positive; m/s), the heading (degrees true) and the
 * boat's motion over the ground. Undefined when she moves but her course is unknown. Vector triangle: W = A + V.
 */
export function groundWind(
  apparent: { angle: number; speed: number },
  heading: number,
  motion: { sog: number; cog?: number },
): Wind | undefined {
  const velocity = velocityOf(motion);
  return velocity && windSeenFrom(apparent, heading, velocity);
}

/** Wind over the water: as over the ground, with the boat's velocity through the water (m/s ahead and to starboard). */
export function waterWind(
  apparent: { angle: number; speed: number },
  heading: number,
  water: { ahead: number; athwart?: number },
): Wind {
  return windSeenFrom(
    apparent,
    heading,
    add(towards(water.ahead, heading), towards(water.athwart ?? 0, heading + 90)),
  );
}

/** Slower than this (m/s) a boat without a course over ground counts as lying still. */
const STILL = 0.3;

function velocityOf({ sog, cog }: { sog: number; cog?: number }): Vector | undefined {
  if (cog !== undefined) return towards(sog, cog);
  return sog < STILL ? { east: 0, north: 0 } : undefined;
}

function windSeenFrom(apparent: { angle: number; speed: number }, heading: number, velocity: Vector): Wind {
  const felt = scale(towards(apparent.speed, heading + apparent.angle), -1);
  const blowing = add(felt, velocity);
  const speed = size(blowing);
  return speed < CALM
    ? { speed }
    : { speed, from: direction(directionOf(subtract({ east: 0, north: 0 }, blowing))) };
}
