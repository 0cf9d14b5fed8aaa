import type { Estimate, LatLon } from '../quantities/estimate.ts';
import type { WeighView } from './view.ts';

/** What the engine lends from the watch: neither room knows the other. */
export interface Given {
  mark: LatLon & { sigma: number };
  /** As veered, when anybody has told. */
  veered?: number;
  circleRadius?: number;
  stream?: { set: Estimate; drift: Estimate };
}

export interface Spell {
  since?: number;
  holds: boolean;
}

/** A place of the roller, metres east and north of the mark; depth below the keel when known. */
export interface Point {
  at: number;
  east: number;
  north: number;
  keel?: number;
}

/** All that the weighing monitor remembers: plain data. */
export interface WeighState {
  since: number;
  by: string;
  lastSignal?: NonNullable<WeighView['lastSignal']>;
  /** The mark that `track` is measured from. */
  from?: LatLon;
  track: Point[];
  /** Distance when she began. */
  began?: number;
  /** Last depth from the surface. */
  depth?: { metres: number; at: number };
  counter?: { metres: number; at: number };
  /** When the counter last ran down. */
  counterFell?: number;
  /** The last length that somebody told, and the seconds of heaving since. */
  told?: { metres: number; sigma: number; heaved: number; from: 'foredeck' | 'veered' };
  heavingSince?: number;
  /** Has any cable been told to come in? Without, the length out is only bounded. */
  everHeaved?: true;
  snubbedAt?: number;
  rate?: number;
  pointed?: { angle: number; at: number };
  /** Mean of distance less computed reach while she still lay to her cable: what mark, receiver and length are wrong by together. */
  offset?: { metres: number; seconds: number; at: number };
  underWay?: true;
  /** Velocity over the ground less that by the log along the heading: what sets her, stream and leeway together, m/s. */
  drift?: { east: number; north: number; at: number };
  stay?: NonNullable<WeighView['stay']>;
  cable?: 'slack' | 'fair' | 'taut';
  /** Candidates of stay and cable, waiting to last. */
  next: { stay?: { name: string; since: number }; cable?: { name: string; since: number } };
  /** Mean place of the roller while up and down: over the anchor. */
  over?: { east: number; north: number; count: number };
  brokenOut?: NonNullable<WeighView['brokenOut']>;
  held?: number;
  spells: Partial<Record<string, Spell>>;
}

/** The weighing monitor begins at `at` (UNIX seconds), by this person's order. */
export const createWeigh = (at: number, by: string): WeighState => ({
  since: at,
  by,
  track: [],
  next: {},
  spells: {},
});
