import { distanceBearing } from '../earth/geodesic.ts';
import type { LieEvent } from '../events.ts';
import { turn } from '../quantities/angle.ts';
import { hypot } from '../quantities/vector.ts';
import type { Settings } from '../settings.ts';
import type { VesselView } from '../vessel/view.ts';
import { anchorView, dragUnseen } from './drag/drag.ts';
import { setBackOffer } from './drag/offer.ts';
import { STANDS_DOWN } from './findings.ts';
import { cableNow, lieNow, pushNow } from './lying.ts';
import { limits, veered, type WatchState } from './state.ts';
import type { WatchView } from './view.ts';

/** What the watch knows, for people; changes nothing. */
export function watchView(state: WatchState, settings: Settings, vessel: VesselView): WatchView {
  const { phase, mark, circle, farthest } = state;
  const out = veered(state, settings);
  const all = limits(state, settings);
  const anchor = anchorView(state);
  const offer = setBackOffer(state, vessel.at);
  const unseen = dragUnseen(state, vessel);
  const supposed = state.drag?.supposed?.veered;
  const where = toMark(state, vessel);
  const watched = (kind: (typeof STANDS_DOWN)[number]) =>
    kind === 'wind-shift'
      ? all.windShift !== undefined
      : kind === 'drag'
        ? anchor !== undefined
        : circle !== undefined;
  return {
    phase,
    ...(mark ? { mark: { ...mark } } : {}),
    ...(out === undefined ? {} : { veered: out }),
    ...(circle
      ? {
          circle: { radius: circle.radius, computed: circle.computed, explanation: circle.explanation },
        }
      : {}),
    limits: all,
    ...(state.told.sectors?.length ? { sectors: state.told.sectors } : {}),
    standDown: phase === 'weighing' ? STANDS_DOWN.filter(watched) : [],
    ...where,
    ...lieNow(state, settings, vessel, where.distance),
    ...(anchor ? { anchor } : {}),
    ...(offer ? { offer } : {}),
    ...(supposed === undefined ? {} : { cableSupposed: supposed }),
    ...(unseen === undefined ? {} : { dragUnseen: unseen }),
    ...(farthest === undefined ? {} : { farthest }),
    ...(state.load?.worst ? { worstLoad: { ...state.load.worst } } : {}),
  };
}

/** How she lies at `t` (UNIX seconds); members that are unknown are left out. */
export function lieEvent(state: WatchState, settings: Settings, vessel: VesselView, t: number): LieEvent {
  const { distance, bearing, lead } = toMark(state, vessel);
  const push = pushNow(state, vessel);
  const cable = cableNow(state, settings, vessel, distance, push);
  const { heading, depth, windGround } = vessel;
  const anchor = anchorView(state);
  const metres = depth && (depth.value.surface ?? depth.value.measured);
  return {
    event: 'lie',
    t,
    ...(distance ? { distance: distance.value } : {}),
    ...(bearing === undefined ? {} : { bearing }),
    ...(heading ? { heading: heading.value } : {}),
    ...(lead === undefined ? {} : { lead }),
    ...(metres === undefined ? {} : { depth: metres }),
    ...(windGround ? { wind: { speed: windGround.value.speed, from: windGround.value.from } } : {}),
    ...(push?.stream ? { stream: { drift: push.stream.drift.value, set: push.stream.set.value } } : {}),
    ...(push?.divergence === undefined ? {} : { divergence: push.divergence }),
    ...(cable ? { cable: { reach: cable.reach.value, state: cable.state } } : {}),
    ...(anchor ? { anchor: movedOf(anchor) } : {}),
  };
}

/** Where she lies from her mark and how far her cable reaches: what other rooms ask of `watchView`, without what only people ask. */
export function reachView(
  state: WatchState,
  settings: Settings,
  vessel: VesselView,
): Pick<WatchView, 'bearing' | 'cable'> {
  const { distance, bearing } = toMark(state, vessel);
  const cable = cableNow(state, settings, vessel, distance, pushNow(state, vessel));
  return { ...(bearing === undefined ? {} : { bearing }), ...(cable ? { cable } : {}) };
}

function toMark(
  { mark }: WatchState,
  { roller, heading }: VesselView,
): Pick<WatchView, 'distance' | 'bearing' | 'lead'> {
  if (!mark || !roller) return {};
  const { distance, bearing } = distanceBearing(roller.value, mark);
  return {
    distance: { value: distance, sigma: hypot(mark.sigma, roller.sigma) },
    bearing,
    ...(heading ? { lead: turn(heading.value, bearing) } : {}),
  };
}

function movedOf({
  moved,
  bearing,
  sigma,
  probability,
}: NonNullable<WatchView['anchor']>): NonNullable<LieEvent['anchor']> {
  return { moved, ...(bearing === undefined ? {} : { bearing }), sigma, probability };
}
