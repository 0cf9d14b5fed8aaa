import { localPlane } from '../../earth/local.ts';
import { degrees, direction } from '../../quantities/angle.ts';
import type { WatchState } from '../state.ts';
import type { Mark, WatchView } from '../view.ts';
import { lying, shiftOffset } from './filter.ts';
import { DIGGING_IN, OFFER } from './model.ts';

/** Marks that were logged before the anchor had dug in; the others were found from how she lay afterwards. */
const BEFORE: Mark['how'][] = ['here', 'position', 'bearing-and-distance'];
export const maySetBack = ({ how }: Mark): boolean => BEFORE.includes(how);

/**
 * The place to which the mark may be moved because the anchor has dug in there: what the watch has learnt of it while it held, once that
 * is worth it and sure enough. Undefined while there is nothing to offer: too early, too late, done already, too little, or while anything
 * speaks against the anchor's holding, since a drag must not become the new mark. Metres, degrees true; `sigma` is the larger axis.
 */
export function setBackOffer(state: WatchState, at: number): WatchView['offer'] {
  const { mark, drag, phase } = state;
  if (phase !== 'watching' || !mark || !drag?.fits || !maySetBack(mark)) return undefined;
  const age = at - mark.at;
  if (age < DIGGING_IN.seconds || age > OFFER.until) return undefined;
  if (drag.found || drag.outside || drag.suspectSince !== undefined) return undefined;
  const { east, north, varEast, varNorth, covariance } = lying(drag.holds);
  const moved = Math.hypot(east, north);
  if (moved < OFFER.metres) return undefined;
  const along = Math.sqrt(
    (varEast * east * east + 2 * covariance * east * north + varNorth * north * north) / (moved * moved),
  );
  if (moved < OFFER.sigmas * along) return undefined;
  const largest = (varEast + varNorth) / 2 + Math.hypot((varEast - varNorth) / 2, covariance);
  return {
    moved,
    bearing: direction(degrees(Math.atan2(east, north))),
    sigma: Math.sqrt(largest),
    ...localPlane(mark).toLatLon({ east, north }),
  };
}

/** The mark has been moved to where the anchor was known to lie: what was learnt stays, told from the new mark. */
export function moveMark({ drag }: WatchState, { lat, lon, at }: Mark): void {
  if (!drag) return;
  const from = localPlane({ lat, lon });
  const { east, north } = from.toLocal(drag.of);
  shiftOffset(drag.holds, east, north);
  drag.of = { ...drag.of, lat, lon, at };
  delete drag.block;
  delete drag.against;
  delete drag.outside;
  drag.recent = [];
}
