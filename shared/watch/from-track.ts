import type { Placed } from './mark.ts';
import type { TrackPoint } from './view.ts';

/** The mark as the centre of the arc that the roller has swept. The fit is not made yet: it always says so. */
export function fromTrack(_track: readonly TrackPoint[]): Placed {
  return {
    ok: false,
    problem: 'unavailable',
    why: 'hawse cannot yet find the mark from the track. Tell it by bearing and distance, or by latitude and longitude.',
  };
}
