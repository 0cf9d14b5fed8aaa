import type { Known, LatLon } from '../quantities/estimate.ts';

/** Everything a duty may depend on; used for ages and for `…-lost` alerts. */
export type Quantity =
  | 'position'
  | 'motion'
  | 'heading'
  | 'wind'
  | 'depth'
  | 'water-speed'
  | 'stream'
  | 'water-temperature';

/**
 * The boat as known at one moment. A member that is absent is unknown or older than its limit; `ages` still tells how
 * old the last value is. Directions true, SI units.
 */
export interface VesselView {
  /** Time of the view on the engine's own timeline, UNIX seconds. */
  at: number;
  /** UTC by the GNSS receiver minus the engine's timeline, seconds, when a receiver tells the time. */
  clockOffset?: number;
  /** Antenna position of the latest fresh fix. */
  antenna?: Known<LatLon>;
  /** Bow roller: antenna moved by its offset turned by heading; without heading `sigma` holds the whole offset. */
  roller?: Known<LatLon> & { sigma: number };
  /** One-sigma horizontal error of the fix per axis, metres. */
  positionSigma?: number;
  /** Why the position should not be trusted, while that holds. */
  positionDoubt?: { reason: string; since: number };
  sog?: Known<number>;
  cog?: Known<number>;
  heading?: Known<number> & { sigma: number; from: 'true' | 'magnetic-sensor' | 'magnetic-model' };
  variation?: number;
  windApparent?: Known<{ angle: number; speed: number }>;
  /** Wind over the ground: where it blows from, and how fast. */
  windGround?: Known<{ from: number; speed: number }>;
  /** Speed through the water, ahead positive. */
  waterSpeed?: Known<{ ahead: number; athwart?: number }>;
  /** Set (towards) and drift of the stream as an instrument reports it. */
  stream?: Known<{ set: number; drift: number }>;
  /** Depths; `surface` and `keel` only when the reference is known. */
  depth?: Known<{ measured: number; surface?: number; keel?: number }>;
  waterTemperature?: Known<number>;
  /** Seconds since the last good value of each quantity; absent: never had one. */
  ages: Partial<Record<Quantity, number>>;
  /** Which source (input:talker+sentence) serves each quantity now. */
  sources: Partial<Record<Quantity, string>>;
}
