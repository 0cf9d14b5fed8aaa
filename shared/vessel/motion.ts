import { degrees, direction } from '../quantities/angle.ts';
import type { Observation } from '../sentences/observation.ts';

export type MotionSaid = Extract<Observation, { kind: 'motion' | 'ground-speed' }>;

export interface Motion {
  sog?: number;
  cog?: number;
}

/**
 * Speed (m/s) and course (degrees true) over the ground. A magnetic course needs the variation, a log's speeds ahead and to
 * starboard need the heading; what can't be made is absent.
 */
export function motionOf(
  said: MotionSaid,
  heading: number | undefined,
  variation: number | undefined,
): Motion {
  if (said.kind === 'ground-speed') {
    const athwart = said.athwart ?? 0;
    const sog = Math.hypot(said.ahead, athwart);
    return heading === undefined
      ? { sog }
      : { sog, cog: direction(heading + degrees(Math.atan2(athwart, said.ahead))) };
  }
  const { sog, cogMagnetic } = said;
  const motion: Motion = {};
  if (sog !== undefined) motion.sog = sog;
  const cog =
    said.cog ??
    (cogMagnetic === undefined || variation === undefined ? undefined : direction(cogMagnetic + variation));
  if (cog !== undefined) motion.cog = cog;
  return motion;
}
