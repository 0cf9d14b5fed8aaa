import type { Estimate, LatLon } from '../quantities/estimate.ts';

/** A slack water of a tidal stream table: UNIX seconds, and the direction the stream sets afterwards, when told. */
export interface SlackTold {
  at: number;
  setsAfterwards?: number;
}

/** When the stream turns next, and what she will do. Absent: unknown. */
export interface StreamTurnView {
  /** Next slack water, with its sigma in seconds, and what that is known from. */
  at?: Estimate;
  from?: 'measured' | 'table' | 'both';
  setsAfterwards?: number;
  /** How long the stream is weaker than a quarter of a knot, s. */
  duration?: number;
  /** How she will probably lie an hour and a half later, in today's wind, and where her roller will be. */
  lies?: { heading: Estimate; drift: number; roller?: LatLon };
  /** Why there is no time. */
  unknown?: string;
  /** How much of the stream has been measured at this anchorage: samples, and over how long, s. */
  record: { samples: number; span: number };
  /** In plain words. */
  report?: string;
}
