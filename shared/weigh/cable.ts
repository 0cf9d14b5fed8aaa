import { reachNow } from '../cable/reach.ts';
import { cableState } from '../cable/state.ts';
import { turn } from '../quantities/angle.ts';
import type { Estimate } from '../quantities/estimate.ts';
import type { Settings } from '../settings.ts';
import type { VesselView } from '../vessel/view.ts';
import { chance } from './lasting.ts';
import { CABLE } from './limits.ts';
import type { Given, WeighState } from './state.ts';
import type { WeighView } from './view.ts';

type Out = NonNullable<WeighView['out']>;

/**
 * While she still lies to her cable as she did, its computed reach tells by how much the measured distance is wrong. That error of
 * mark, receiver and length veered is nearly the same some minutes later, and then spoils the cable's state no more.
 */
export function keepOffset(
  state: WeighState,
  settings: Settings,
  vessel: VesselView,
  given: Given,
  distance: Estimate,
  closing: Estimate | undefined,
  out: Out | undefined,
): void {
  const depth = state.depth?.metres;
  if (state.underWay) return;
  if (state.everHeaved || (closing && closing.value > CABLE.underWay)) {
    state.underWay = true;
    return;
  }
  const wind = vessel.windGround?.value;
  if (!out || depth === undefined || !wind || !closing || Math.abs(closing.value) > CABLE.lyingStill) return;
  const { boat, cable } = settings;
  const { stream } = given;
  const divergence = stream ? turn(wind.from + 180, stream.set.value) : 0;
  const fights = stream && stream.drift.value > CABLE.weak && Math.abs(divergence) > CABLE.together;
  if (fights) return;
  const now = reachNow({
    veered: out.value,
    depth,
    rollerHeight: boat.roller.height,
    massPerMetre: cable.massPerMetre,
    ...(cable.length === undefined ? {} : { chainLength: cable.length }),
    boat,
    windSpeed: wind.speed,
    ...(stream ? { streamDrift: stream.drift.value, divergence } : {}),
  });
  if (!now) return;
  const error = distance.value - now.reach.value;
  const seconds = Math.min(CABLE.settle, (state.offset?.seconds ?? 0) + 1);
  const before = state.offset?.metres ?? error;
  state.offset = { metres: before + (error - before) / seconds, seconds, at: vessel.at };
}

/** State of the cable from its length and the distance; undefined when either is not known well enough to say anything. */
export function cableOf(
  state: WeighState,
  distance: Estimate | undefined,
  height: Estimate | undefined,
  out: Out | undefined,
): WeighView['cable'] {
  // Between bounds only, any state would be a guess.
  if (!distance || !height || !out || out.from === 'bounds' || state.brokenOut) return undefined;
  const { value, sigma } = out;
  if (value <= height.value) return { state: 'taut', certainty: chance((height.value - value) / sigma) };
  const slopeOf = Math.min(3, value / Math.sqrt((value - height.value) * (value + height.value)));
  const ofLength = Math.hypot(slopeOf * sigma, (slopeOf * height.value * height.sigma) / value);
  const { offset } = state;
  const settled = offset !== undefined && offset.seconds >= CABLE.settled;
  const corrected = settled
    ? {
        value: Math.max(0, distance.value - offset.metres),
        sigma: Math.hypot(CABLE.wander, CABLE.load, ofLength),
      }
    : { value: distance.value, sigma: Math.hypot(distance.sigma, ofLength) };
  return cableState({ distance: corrected, veered: value, height: height.value });
}

/** Probability that the straight line from roller to anchor is as long as the cable: the strain builds. */
export function strainOf(
  distance: Estimate | undefined,
  height: Estimate | undefined,
  out: Out | undefined,
): number | undefined {
  if (!distance || !height || !out) return undefined;
  const line = Math.hypot(distance.value, height.value);
  const ofDistance = (distance.value / line) * distance.sigma;
  return chance((line - out.value) / Math.hypot(ofDistance, height.sigma, out.sigma));
}
