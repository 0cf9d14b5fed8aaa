import type { Finding } from '../../alerts/alert.ts';
import { localPlane } from '../../earth/local.ts';
import { degrees, direction } from '../../quantities/angle.ts';
import { hypot } from '../../quantities/vector.ts';
import type { Settings } from '../../settings.ts';
import type { VesselView } from '../../vessel/view.ts';
import type { Moment } from '../moment.ts';
import type { WatchState } from '../state.ts';
import type { TrackPoint, WatchView } from '../view.ts';
import { cableUnknown, doubtfulUnseen, unfitUnseen } from '../words.ts';
import { weighFix } from './evidence.ts';
import { lying } from './filter.ts';
import { followAnchor } from './follow.ts';
import { EVIDENCE } from './model.ts';
import { forgetFixes } from './receiver.ts';
import type { DragState } from './state.ts';
import { wanted } from './supposed.ts';

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

/** How she lies, for the strip of the last hours; undefined while the anchor is not watched. */
export function lieForTrack({ range, drag, mark }: WatchState): TrackPoint['lie'] {
  if (!range || !mark || !drag?.allowed || !drag.against) return undefined;
  const { moved, probability } = judged(drag.against);
  return { distance: range.distance, reach: drag.allowed.reach, moved, probability };
}

/** Two stories about the metres: none of them is the anchor's, or they are, as many as an anchor drags. */
function judged({ metres, sigma }: NonNullable<DragState['against']>): {
  moved: number;
  probability: number;
} {
  const wide = hypot(sigma, USUAL);
  const ratio = 0.5 * ((metres / sigma) ** 2 - (metres / wide) ** 2) - Math.log(wide / sigma);
  const probability = 1 / (1 + Math.exp(metres > 0 ? PRIOR - ratio : PRIOR));
  return { moved: Math.max(0, metres) * probability, probability };
}

/** Why drag is not judged at present, while she is watched; undefined: it is, or nothing is seen at all. */
export function dragUnseen({ phase, mark, drag }: WatchState, vessel: VesselView): string | undefined {
  if (phase !== 'watching' || !mark || !drag || !vessel.roller) return undefined;
  if (vessel.positionDoubt) return doubtfulUnseen;
  if (drag.supposed && drag.supposed.veered === undefined)
    return cableUnknown(wanted(drag.supposed, vessel.at));
  return drag.fits ? undefined : unfitUnseen;
}

/** One-sigma ellipse of a place that was known by `held`, and has moved along a direction by what is known to `sigma`. */
function ellipse(
  { varEast, varNorth, covariance }: ReturnType<typeof lying>,
  along: { east: number; north: number },
  sigma: number,
): NonNullable<WatchView['anchor']>['ellipse'] {
  // `sigma` holds the held anchor's own uncertainty along the pull already: only what is beyond it is added.
  const own =
    varEast * along.east ** 2 + 2 * covariance * along.east * along.north + varNorth * along.north ** 2;
  const more = Math.max(0, sigma ** 2 - own);
  const a = varEast + more * along.east ** 2;
  const b = covariance + more * along.east * along.north;
  const c = varNorth + more * along.north ** 2;
  const half = hypot((a - c) / 2, b);
  const middle = (a + c) / 2;
  // Direction of the major axis from east, anticlockwise: half the angle of the deviator.
  const turned = Math.atan2(b, (a - c) / 2) / 2;
  return {
    major: Math.sqrt(middle + half),
    minor: Math.sqrt(Math.max(0, middle - half)),
    bearing: direction(90 - degrees(turned)),
  };
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
  const { sigma, east, north } = drag.against;
  const held = lying(drag.holds);
  const { moved, probability } = judged(drag.against);
  const place = { east: held.east + moved * east, north: held.north + moved * north };
  return {
    moved,
    ...(moved > 0.5 ? { bearing: direction(degrees(Math.atan2(east, north))) } : {}),
    sigma,
    probability,
    ...place,
    ...localPlane(mark).toLatLon(place),
    ellipse: ellipse(held, { east, north }, sigma),
  };
}
