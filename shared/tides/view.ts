import type { Constituent } from '../water/tide/harmonic.ts';

/** A high or low water: UNIX seconds, metres above the datum of its table. */
export interface TurnTold {
  at: number;
  height: number;
}

/** What people tell of the tide here; one of `turns` and `harmonic`. */
export interface TideTold {
  /** High and low waters typed in from a tide table, each next to the other kind. */
  turns?: TurnTold[];
  /** Constituents of a station, and its mean level above datum, m. */
  harmonic?: { constituents: Constituent[]; meanLevel: number };
  /** Where it holds, and where the figures come from with the terms they are lent under: shown beside every figure. */
  place?: string;
  source?: string;
  licence?: string;
}

/** The tide as reckoned for people. Heights in metres above the datum of what was told; absent: unknown. */
export interface TideView {
  from: 'table' | 'constituents';
  place?: string;
  source?: string;
  licence?: string;
  by: string;
  /** Height now, and how fast it rises, m/h. */
  height?: number;
  rising?: number;
  /** Why there is no height now. */
  unknown?: string;
  /** Heights from `from` on (UNIX seconds), every `step` seconds, as far as known, at most a day ahead. */
  curve: { from: number; step: number; heights: number[] };
  turns: { at: number; height: number; high: boolean }[];
  /** Depth from the surface and water under the keel where she lies now, when it is least in what is known of the next 24 h. */
  least?: { at: number; depth: number; underKeel: number };
  /** End of what is known, when that is less than 12 h away. */
  ends?: number;
}
