import { direction } from '../quantities/angle.ts';
import type { Known } from '../quantities/estimate.ts';
import type { Observation } from '../sentences/observation.ts';
import { groundWind } from '../water/wind.ts';
import type { Source } from './channel.ts';
import type { Motion } from './motion.ts';
import type { VesselView } from './view.ts';

export type ApparentWindSaid = Extract<Observation, { kind: 'wind-apparent' }>;
export type GroundWindSaid = Extract<Observation, { kind: 'wind-ground' }>;

/** True when the sentence tells both where the ground wind comes from and how fast. */
export const isWhole = ({ from, fromMagnetic, speed }: GroundWindSaid): boolean =>
  speed !== undefined && (from !== undefined || fromMagnetic !== undefined);

/** Ground wind as an instrument gives it (MWD); undefined while a magnetic direction can't be turned into a true one. */
export function statedWind(
  source: Source<GroundWindSaid>,
  variation: number | undefined,
  at: number,
): VesselView['windGround'] {
  const { from, fromMagnetic, speed } = source.value;
  const magnetic =
    fromMagnetic === undefined || variation === undefined ? undefined : direction(fromMagnetic + variation);
  const direct = from ?? magnetic;
  if (direct === undefined || speed === undefined) return undefined;
  return { value: { from: direct, speed }, at: source.at, age: at - source.at, source: source.key };
}

/**
 * Ground wind from apparent wind, true heading and motion over the ground, as old as the oldest of them; undefined in a calm, which
 * has no direction, or when the boat moves and her course is unknown.
 */
export function computedWind(
  apparent: Source<ApparentWindSaid>,
  heading: Known<number>,
  motion: Motion,
  motionAt: number,
  at: number,
): VesselView['windGround'] {
  const { sog, cog } = motion;
  if (sog === undefined) return undefined;
  const wind = groundWind(apparent.value, heading.value, cog === undefined ? { sog } : { sog, cog });
  if (wind?.from === undefined) return undefined;
  const oldest = Math.min(apparent.at, heading.at, motionAt);
  return {
    value: { from: wind.from, speed: wind.speed },
    at: oldest,
    age: at - oldest,
    source: apparent.key,
  };
}
