import type { Finding } from '../../alerts/alert.ts';
import { localPlane } from '../../earth/local.ts';
import { degrees, direction } from '../../quantities/angle.ts';
import type { Settings } from '../../settings.ts';
import type { VesselView } from '../../vessel/view.ts';
import type { Moment } from '../moment.ts';
import type { WatchState } from '../state.ts';
import type { WatchView } from '../view.ts';
import { strongest } from './bank.ts';
import { movedAlongPull, weighEvidence } from './evidence.ts';
import { lying, moved } from './filter.ts';
import { followAnchor } from './follow.ts';
import { EVIDENCE } from './model.ts';

/** Log of the odds, before any evidence, that the anchor holds against that it drags at this moment: one night in a hundred or so [P]. */
const PRIOR = 7;

/**
 * The drag watch: knows that the anchor moves before the boat leaves her circle. `watchAnchor` takes in each fresh fix,
 * `findDrag` tells what the evidence amounts to, `anchorView` shows it. How it knows: docs/drag.md.
 */
export function watchAnchor(state: WatchState, settings: Settings, vessel: VesselView): void {
  const reading = followAnchor(state, settings, vessel);
  if (reading && state.drag) weighEvidence(state.drag, reading);
}

export function findDrag({ state: { drag } }: Moment): Finding | undefined {
  if (!drag?.level || drag.why === undefined) return undefined;
  const best = strongest(drag.bank);
  return {
    kind: 'drag',
    priority: drag.level,
    text: drag.why,
    value: best ? Math.max(0, movedAlongPull(drag, best.filter).value) : 0,
    limit: EVIDENCE[drag.level].metres,
  };
}

/** How far the anchor has probably moved, how sure that is, and where it lies by now. Undefined while there is nothing to tell. */
export function anchorView({ drag, mark }: WatchState): WatchView['anchor'] {
  if (!drag?.pull || !mark) return undefined;
  const best = strongest(drag.bank);
  const probability = best ? 1 / (1 + Math.exp(PRIOR - best.log)) : 0;
  const filter = best && probability > 0.5 ? best.filter : drag.bank.holds;
  const { east, north } = moved(filter);
  const size = Math.hypot(east, north);
  const place = lying(filter);
  const { lat, lon } = localPlane(mark).toLatLon(place);
  return {
    moved: size,
    ...(size > 0.5 ? { bearing: direction(degrees(Math.atan2(east, north))) } : {}),
    sigma: best ? movedAlongPull(drag, best.filter).sigma : place.sigma,
    probability,
    lat,
    lon,
  };
}
