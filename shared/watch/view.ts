import type { AlertKind } from '../alerts/alert.ts';
import type { Estimate, LatLon } from '../quantities/estimate.ts';
import type { Limits } from '../settings.ts';

/** Where the anchor lies, as logged. */
export interface Mark extends LatLon {
  /** One-sigma uncertainty per axis, metres. */
  sigma: number;
  /** When it was let go, UNIX seconds. */
  at: number;
  by: string;
  how: 'here' | 'position' | 'bearing-and-distance' | 'track' | 'set-back' | 'anchorage-file';
}

/** A part of the water about the mark that the boat must not enter: clockwise between two bearings, from so far on. */
export interface Sector extends LatLon {
  name?: string;
  /** Degrees true from its centre, which is where the mark was when it was drawn. */
  from: number;
  to: number;
  /** Metres from the centre. */
  beyond: number;
}

export type CableState = 'slack' | 'fair' | 'taut';

/** What the watch knows and thinks, for people. Absent is unknown. */
export interface WatchView {
  phase: 'no-mark' | 'watching' | 'weighing';
  mark?: Mark;
  /** Metres of cable out beyond the roller. */
  veered?: number;
  circle?: { radius: number; computed: boolean; explanation: string };
  limits: Limits;
  sectors?: Sector[];
  /** What is not watched at present although it could be: while weighing she leaves her circle on purpose. */
  standDown: AlertKind[];
  /** Roller to mark: metres on the ellipsoid, direction true. */
  distance?: Estimate;
  bearing?: number;
  /** Bearing of the mark off the bow, signed, starboard positive. */
  lead?: number;
  /** Horizontal reach of the roller that the cable allows in this wind and stream, and the cable's state, with the probability of that state. */
  cable?: { reach: Estimate; state: CableState; certainty: number };
  /** Which way wind and stream push, how far apart, and which one the boat lies to. */
  lie?: {
    to?: 'wind' | 'stream' | 'both';
    divergence?: number;
    predictedHeading?: Estimate;
    stream?: { set: Estimate; drift: Estimate; from: 'instrument' | 'log' | 'sheer' };
    streamUnknown?: string;
  };
  /** Estimated displacement of the anchor from its mark. */
  anchor?: {
    /** Metres that it has moved since it dug in, towards where (absent: hardly), their sigma, and the probability that they are the anchor's. */
    moved: number;
    bearing?: number;
    sigma: number;
    probability: number;
    /** Where it lies by now, the same in metres from the mark, and the one-sigma ellipse around it: semi-axes in metres, direction of the major one. */
    lat: number;
    lon: number;
    east: number;
    north: number;
    ellipse: { major: number; minor: number; bearing: number };
  };
  /** The mark may be moved to where the anchor has dug in: metres and direction from the mark. */
  offer?: LatLon & { moved: number; bearing: number; sigma: number };
  /** Metres of cable that hawse supposes to be out, learnt from how she lies, while nobody has told. */
  cableSupposed?: number;
  /** Why drag is not judged at present. */
  dragUnseen?: string;
  /** Largest distance from the mark since it was set, metres. */
  farthest?: number;
  /** Worst steady load in this anchorage so far. */
  worstLoad?: WorstLoad;
}

/** Steady pull on the cable, N, reckoned from the mean wind (m/s) and the stream (m/s; absent: unknown, not counted). */
export interface WorstLoad extends Estimate {
  at: number;
  wind: number;
  drift?: number;
}

/** One point of the swept track. */
export interface TrackPoint extends LatLon {
  at: number;
  heading?: number;
  depth?: number;
  /** Wind over the ground, m/s, and where it came from, whole degrees true. */
  wind?: number;
  windFrom?: number;
  /** Once a minute while the anchor is watched: metres from the mark (the farthest since the last time), what the cable reaches in this wind, and what that says of the anchor. */
  lie?: { distance: number; reach: number; moved: number; probability: number };
}
