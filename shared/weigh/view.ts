import type { Estimate } from '../quantities/estimate.ts';

/** What the weighing monitor tells people. Absent is unknown. SI units, directions true, angles off the bow signed to starboard. */

/** long: leads well ahead; short: about one and a half times the height of the roller above the bottom; up-and-down; aweigh. */
export type Stay = 'long' | 'short' | 'up-and-down' | 'aweigh';
export type LeadName = 'ahead' | 'on-the-bow' | 'abeam' | 'under-the-hull';
/** Where the length out comes from: a chain counter; the foredeck's word; counted down from heaving; as veered; or only bounds. */
export type OutFrom = 'counter' | 'foredeck' | 'counted' | 'veered' | 'bounds';

export interface LeadView {
  angle: number;
  sigma: number;
  /** 1 to 12, the bow is 12. */
  clock: number;
  name: LeadName;
  /** `foredeck`: as pointed out there lately; `compass`: bearing of the mark against the heading. */
  from: 'compass' | 'foredeck';
  /** Aft of this the cable leads foul on this hull. */
  limit: number;
}

export interface GuidanceView {
  /** Course to steer to the anchor, degrees true, and how far to turn for it. */
  course: number;
  turn?: number;
  /** The bow is far off that course: bring it round before coming ahead. */
  roundFirst?: true;
  /** Speed through the water it is meant for, and the speed over the ground towards the anchor that this makes good. */
  throughWater: number;
  madeGood: number;
  /** Degrees she is pushed sideways by the wind, positive to starboard; 0 when it is in the measured drift. */
  leeway: number;
  /** Apparent wind to expect and hold on that course: angle off the bow. */
  windAngle?: number;
  /** Closing speed that fits the distance, m/s. */
  closing: number;
  /** How strongly to come ahead: −1 (astern) to 1 (ahead), and in a word. */
  ahead: number;
  engine: 'ahead' | 'ahead-gently' | 'neutral' | 'astern-gently';
  /** Corrections that fit the distance: at most this many degrees, looked at every so many seconds. */
  correction: { most: number; every: number };
  /** Metres from the bow to the edge of a plan view that fits the distance. */
  scale: number;
}

export interface WeighView {
  since: number;
  lastSignal?: { signal: string; number: number; at: number; by: string };
  /** Roller to anchor. */
  distance?: Estimate;
  bearing?: number;
  /** Speed towards the anchor, m/s. */
  closing?: Estimate;
  lead?: LeadView;
  /** Cable out beyond the roller. */
  out?: Estimate & { from: OutFrom };
  /** Roller above the bottom, m. */
  height?: Estimate;
  /** The foredeck says that the windlass heaves, or that the cable is snubbed. */
  heaving?: true;
  snubbed?: true;
  cable?: { state: 'slack' | 'fair' | 'taut'; certainty: number };
  /** `distance`: nobody tells the cable, so the stay is what it would be without slack. */
  stay?: { name: Stay; certainty: number; from: 'cable' | 'foredeck' | 'distance' | 'motion' };
  /** Almost over the anchor: slow down. */
  nearEnd?: true;
  /** While up and down or snubbed: probability that the cable is drawn straight, so that the strain builds. */
  strain?: number;
  brokenOut?: { at: number; from: 'foredeck' | 'motion' | 'cable' };
  /** Free of the bottom and moving: speed, direction, metres to the edge of the circle and to where there is too little water. */
  adrift?: { speed: number; toward: number; edge?: number; shoal?: number };
  /** What takes her, how fast and where to. */
  taking?: { by: 'wind' | 'stream' | 'both'; speed: number; toward: number };
  guidance?: GuidanceView;
  /** Why there is no course to steer. */
  noGuidance?: string;
  /** Apparent wind angle that the helm has marked; how far the wind is from it now (positive: the wind is more to starboard). */
  held?: { angle: number; deviation?: number };
  /** All of it in a plain sentence or two. */
  report?: string;
}
