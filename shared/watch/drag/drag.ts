import type { Finding } from '../../alerts/alert.ts';
import { localPlane } from '../../earth/local.ts';
import { degrees, direction } from '../../quantities/angle.ts';
import type { Settings } from '../../settings.ts';
import type { VesselView } from '../../vessel/view.ts';
import type { Moment } from '../moment.ts';
import type { WatchState } from '../state.ts';
import type { WatchView } from '../view.ts';
import { weighFix } from './evidence.ts';
import { lying } from './filter.ts';
import { followAnchor } from './follow.ts';
import { EVIDENCE } from './model.ts';
import { forgetFixes } from './receiver.ts';
import type { DragState } from './state.ts';

/** Log of the odds, before any evidence, that the anchor holds against that it drags at this moment: one night in a hundred or so [P]. */
const PRIOR = 4.6;
/** How far an anchor that drags has usually moved when it is noticed, metres [P]. */
const USUAL = 8;

/**
 * The drag watch: knows that the anchor moves before the boat leaves her circle. `watchAnchor` takes in each fresh fix,
 * `findDrag` tells what the evidence amounts to, `anchorView` shows it. How it knows: docs/drag.md.
 */
export function watchAnchor(state: WatchState, settings: Settings, vessel: VesselView): void {
  if (state.phase === 'weighing') {
    // She is hove in on purpose: what is begun then counts for nothing afterwards.
    if (state.drag) standDown(state.drag);
    return;
  }
  const reading = followAnchor(state, settings, vessel);
  if (reading && state.drag) weighFix(state.drag, reading);
}

function standDown(drag: DragState): void {
  delete drag.block;
  delete drag.against;
  delete drag.outside;
  delete drag.found;
  delete drag.suspectSince;
  drag.recent = [];
  forgetFixes(drag.receiver);
}

export function findDrag({ state: { drag } }: Moment): Finding | undefined {
  const found = drag?.found;
  if (!found) return undefined;
  return {
    kind: 'drag',
    priority: found.level,
    text: found.why,
    value: Math.max(0, drag.against?.metres ?? 0),
    limit: EVIDENCE[found.level].metres,
  };
}

/** How far the anchor has probably moved, how sure that is, and where it lies by now. Undefined while there is nothing to tell. */
export function anchorView({ drag, mark }: WatchState): WatchView['anchor'] {
  if (!drag?.against || !mark) return undefined;
  const { metres, sigma, east, north } = drag.against;
  const held = lying(drag.holds);
  // Two stories about the metres: none of them is the anchor's, or they are, as many as an anchor drags.
  const wide = Math.hypot(sigma, USUAL);
  const ratio = 0.5 * ((metres / sigma) ** 2 - (metres / wide) ** 2) - Math.log(wide / sigma);
  const probability = metres > 0 ? 1 / (1 + Math.exp(PRIOR - ratio)) : 1 / (1 + Math.exp(PRIOR));
  const moved = Math.max(0, metres) * probability;
  const place = { east: held.east + moved * east, north: held.north + moved * north };
  return {
    moved,
    ...(moved > 0.5 ? { bearing: direction(degrees(Math.atan2(east, north))) } : {}),
    sigma,
    probability,
    ...localPlane(mark).toLatLon(place),
  };
}
