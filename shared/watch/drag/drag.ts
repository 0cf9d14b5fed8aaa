import type { Finding } from '../../alerts/alert.ts';
import { localPlane } from '../../earth/local.ts';
import { degrees, direction } from '../../quantities/angle.ts';
import type { Settings } from '../../settings.ts';
import type { VesselView } from '../../vessel/view.ts';
import type { Moment } from '../moment.ts';
import type { WatchState } from '../state.ts';
import type { WatchView } from '../view.ts';
import { movedAlongPull, weighEvidence } from './evidence.ts';
import { lying, moved } from './filter.ts';
import { followAnchor } from './follow.ts';
import { EVIDENCE } from './model.ts';

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
  return {
    kind: 'drag',
    priority: drag.level,
    text: drag.why,
    value: Math.max(0, movedAlongPull(drag).value),
    limit: EVIDENCE[drag.level].metres,
  };
}

/** How far the anchor has probably moved, how sure that is, and where it lies by now. Undefined while there is nothing to tell. */
export function anchorView({ drag, mark }: WatchState): WatchView['anchor'] {
  if (!drag?.pull || !mark) return undefined;
  const { east, north } = moved(drag.filter);
  const size = Math.hypot(east, north);
  const along = movedAlongPull(drag);
  const { lat, lon } = localPlane(mark).toLatLon(lying(drag.filter));
  return {
    moved: size,
    ...(size > 0.5 ? { bearing: direction(degrees(Math.atan2(east, north))) } : {}),
    sigma: along.sigma,
    probability: normalBelow((along.value - EVIDENCE.moved) / along.sigma),
    lat,
    lon,
  };
}

/** Standard normal distribution function, Abramowitz & Stegun 26.2.17 (absolute error below 7.5e-8). */
function normalBelow(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const series =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * series;
  return z > 0 ? 1 - tail : tail;
}
