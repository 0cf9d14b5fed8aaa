import { direction, turn } from '../quantities/angle.ts';
import { directionOf, size } from '../quantities/vector.ts';
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
  { heading, windGround, at }: VesselView,
  { stream }: Given,
): void {
  const { distance, closing, cable, lead } = view;
  // The foredeck sees the cable; hawse only reckons where it is.
  const pointed = lead?.from === 'foredeck' && heading ? direction(heading.value + lead.angle) : undefined;
  const bearing = pointed ?? view.bearing;
  if (!distance || bearing === undefined) {
    view.noGuidance = 'There is no position to steer by.';
    return;
  }
  if (pointed === undefined && distance.value < APPROACH.tooNear * distance.sigma) {
    view.noGuidance =
      'Too near for hawse to tell where the anchor is: hold this heading, and look where the cable leads.';
    return;
  }
  const measured = measuredDrift(state, at);
  const sets = measured ?? (stream && { set: stream.set.value, drift: stream.drift.value });
  const speed = settings.weigh?.approachSpeed;
  const answer = guide({
    boat: settings.boat,
    distance: distance.value,
    bearing,
    ...(speed === undefined ? {} : { speed }),
    ...(heading ? { heading: heading.value } : {}),
    ...(closing ? { closing: closing.value } : {}),
    ...(windGround ? { wind: windGround.value } : {}),
    ...(sets ? { stream: sets } : {}),
    ...(measured ? { leewayIncluded: true } : {}),
    ...(state.depth ? { depth: state.depth.metres } : {}),
    slack: cable?.state === 'slack' && cable.certainty >= CABLE.sureSlack,
    nearEnd: view.nearEnd === true,
  });
  if ('guidance' in answer) view.guidance = answer.guidance;
  else view.noGuidance = answer.none;
}

/** Seconds after which a measured drift is old. */
const DRIFT_AGE = 10;

/**
 * What sets her as log, compass and positions tell it together, stream and leeway in one, once she comes ahead: that proved better than
 * the stream with a reckoned leeway (docs/weigh.md). While she lies to her cable it is not seen.
 */
function measuredDrift(
  { drift, underWay }: WeighState,
  at: number,
): { set: number; drift: number } | undefined {
  if (!underWay || !drift || at - drift.at > DRIFT_AGE) return undefined;
  return { set: directionOf(drift), drift: size(drift) };
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
