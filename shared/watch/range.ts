import { distanceBearing } from '../earth/geodesic.ts';
import type { VesselView } from '../vessel/view.ts';
import type { WatchState } from './state.ts';

/** Roller to mark at the fix of time `at`: metres on the ellipsoid, and direction true. */
export interface Range {
  at: number;
  distance: number;
  bearing: number;
}

/** Roller to mark at the latest fresh fix, worked out once a fix; undefined without a mark or a fresh fix. */
export function rangeNow(state: WatchState, vessel: VesselView): Range | undefined {
  const { mark } = state;
  const { roller } = vessel;
  if (!mark || !roller) return undefined;
  if (state.range?.at === roller.at) return state.range;
  const { distance, bearing } = distanceBearing(roller.value, mark);
  state.range = { at: roller.at, distance, bearing };
  if (!vessel.positionDoubt) state.farthest = Math.max(distance, state.farthest ?? 0);
  return state.range;
}
