import type { Estimate, LatLon } from '../quantities/estimate.ts';

/** The bottom as the boat has sounded it while she swung. Metres; absent: unknown. */
export interface SoundingsView {
  /** South-west corner of cell 0/0, and the side of a cell. */
  origin: LatLon;
  side: number;
  /** True: depths are reduced to the datum of the tide as told; false: as sounded, with whatever tide there was. */
  reduced: boolean;
  /** Cells that are known: [east index, north index, depth, sigma]. */
  cells: [number, number, number, number][];
  /** Share of the whole circle that is sounded or lies within a few metres of soundings, 0 to 1. */
  share: number;
  /** Least depth over the circle at the least tide of the next day: from the surface, and where and when. */
  least?: { depth: Estimate; underKeel: number; at: number; place: LatLon; sounded: boolean };
  /** Why there is none. */
  leastUnknown?: string;
}
