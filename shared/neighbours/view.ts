import type { Extent } from '../ais/message.ts';
import type { LatLon } from '../quantities/estimate.ts';

export type Activity = 'at-anchor' | 'moored' | 'under-way' | 'unknown';

/**
 * A vessel near ours, heard by AIS or told by the crew. SI units, directions true; absent is unknown. All distances are clear water
 * between the two hulls, negative when they would overlap.
 */
export interface NeighbourView {
  /** `ais-235000001` or `hand-2`. */
  id: string;
  from: 'ais' | 'hand';
  name?: string;
  activity: Activity;
  /** `told`: by her navigational status; `moves`: judged by how she moves; `hand`: by the crew. */
  activityFrom: 'told' | 'moves' | 'hand';
  /** Her bow-to-stern middle is not known: this is her antenna, or her bow when told by hand; and when it was there. */
  place: LatLon;
  at: number;
  /** Nothing has been heard for so long that this is where she was, not where she is. */
  stale?: true;
  heading?: number;
  /** `assumed`: she is taken to lie as we do. */
  headingFrom?: 'told' | 'assumed';
  sog?: number;
  cog?: number;
  /** Metres from that place to her ends and sides; `assumed`: she has not told them. */
  extent: Extent;
  extentFrom: 'told' | 'assumed';
  /** Now, from hull to hull, and the bearing of her place from our roller. */
  distance?: number;
  bearing?: number;
  /** Her swing at this wind: where her anchor probably lies and how far her stern reaches from it. */
  circle?: { anchor: LatLon; radius: number; sigma: number; veered: number; veeredFrom: 'told' | 'assumed' };
  /** Least distance when both swing together, in step; and when each may lie any way. */
  together?: number;
  outOfStep?: number;
  /** Least distance if she keeps course and speed, and in how many seconds. */
  passing?: { distance: number; in: number };
  overOurAnchor?: true;
  /** She has left where her cable could hold her: metres beyond it, her speed and direction, and the time until she is upon us. */
  dragging?: { beyond: number; speed: number; toward: number; reachesUsIn?: number };
}

/** What the crew tells of a neighbour that AIS does not show. */
export interface HandNeighbour {
  /** Range in metres and true bearing of her bow from our roller. */
  range: number;
  bearing: number;
  name?: string;
  length?: number;
  /** Metres of cable that she has probably out. */
  veered?: number;
}
