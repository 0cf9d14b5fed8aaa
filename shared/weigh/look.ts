import { turn } from '../quantities/angle.ts';
import type { Settings } from '../settings.ts';
import type { VesselView } from '../vessel/view.ts';
import { adriftOf, takingOf } from './adrift.ts';
import { cableOf, strainOf } from './cable.ts';
import { guide } from './guidance.ts';
import { APPROACH, CABLE } from './limits.ts';
import { isHeaving, outOf } from './out.ts';
import { closingOf, heightOf, leadOf, rangeOf } from './range.ts';
import type { Given, WeighState } from './state.ts';
import type { WeighView } from './view.ts';
import { reportOf } from './words.ts';

/** What the weighing monitor knows, for people; changes nothing. Without a mark (`given` undefined) it knows next to nothing. */
export function weighView(
  state: WeighState,
  settings: Settings,
  vessel: VesselView,
  given: Given | undefined,
): WeighView {
  const { at } = vessel;
  const view: WeighView = { since: state.since };
  if (state.lastSignal) view.lastSignal = { ...state.lastSignal };
  if (isHeaving(state, at)) view.heaving = true;
  if (state.snubbedAt !== undefined) view.snubbed = true;
  if (state.brokenOut) view.brokenOut = { ...state.brokenOut };
  const held = heldOf(state, vessel);
  if (held) view.held = held;
  if (!given) return view;

  const range = rangeOf(vessel, given);
  const height = heightOf(state, settings, at);
  const distance = range?.distance;
  const closing = range && closingOf(state, at);
  const out = outOf(state, settings, given, distance, height, at);
  const lead = leadOf(state, settings, vessel, range);
  const cable = cableOf(state, distance, height, out);
  if (range) {
    view.distance = range.distance;
    view.bearing = range.bearing;
  }
  if (closing) view.closing = closing;
  if (lead) view.lead = lead;
  if (out) view.out = out;
  if (height) view.height = height;
  if (cable) view.cable = cable;
  if (state.stay) view.stay = { ...state.stay };
  const near = nearEnd(view, settings);
  if (near) view.nearEnd = true;
  if (state.stay?.name === 'up-and-down' || state.snubbedAt !== undefined) {
    const strain = state.brokenOut ? undefined : strainOf(distance, height, out);
    if (strain !== undefined) view.strain = strain;
  }
  const adrift = adriftOf(state, given, at);
  if (adrift) view.adrift = adrift;
  const taking = takingOf(state, vessel, given, at);
  if (taking) view.taking = taking;
  if (!state.brokenOut) addGuidance(view, state, settings, vessel, given);
  view.report = reportOf(view);
  return view;
}

function addGuidance(
  view: WeighView,
  state: WeighState,
  settings: Settings,
  { heading, windGround }: VesselView,
  { stream }: Given,
): void {
  const { distance, bearing, closing, cable } = view;
  if (!distance || bearing === undefined) {
    view.noGuidance = 'There is no position to steer by.';
    return;
  }
  if (distance.value < distance.sigma) {
    view.noGuidance = 'She is over the anchor as nearly as hawse can tell: look at the cable.';
    return;
  }
  const speed = settings.weigh?.approachSpeed;
  const answer = guide({
    boat: settings.boat,
    distance: distance.value,
    bearing,
    ...(speed === undefined ? {} : { speed }),
    ...(heading ? { heading: heading.value } : {}),
    ...(closing ? { closing: closing.value } : {}),
    ...(windGround ? { wind: windGround.value } : {}),
    ...(stream ? { stream: { set: stream.set.value, drift: stream.drift.value } } : {}),
    ...(state.depth ? { depth: state.depth.metres } : {}),
    slack: cable?.state === 'slack' && cable.certainty >= CABLE.sureSlack,
    nearEnd: view.nearEnd === true,
  });
  if ('guidance' in answer) view.guidance = answer.guidance;
  else view.noGuidance = answer.none;
}

/** About so much cable left means almost over the anchor (common practice: 4 m); without a known cable, the distance says it. */
function nearEnd({ out, height, distance, brokenOut }: WeighView, settings: Settings): boolean {
  if (brokenOut) return false;
  const left = settings.weigh?.slowWithin ?? APPROACH.nearEnd;
  if (out && height && out.from !== 'bounds') return out.value - height.value <= left;
  return distance !== undefined && distance.value <= left + distance.sigma;
}

function heldOf({ held }: WeighState, { windApparent }: VesselView): WeighView['held'] {
  if (held === undefined) return undefined;
  return { angle: held, ...(windApparent ? { deviation: turn(held, windApparent.value.angle) } : {}) };
}
