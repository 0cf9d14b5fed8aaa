import type { Estimate } from '../quantities/estimate.ts';

/** Where she goes if the anchor goes now. Degrees true, SI units; absent: unknown. */
export interface LeeView {
  toward: number;
  /** Over the ground, bare masts and no engine. */
  drift: Estimate;
  /** The first thing that hawse knows of in that direction: metres until she touches it, and seconds at that drift. */
  first?: { what: 'neighbour' | 'sector' | 'shoal'; name?: string; distance: number; in: number };
  report: string;
}
