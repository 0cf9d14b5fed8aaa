import { direction } from '../quantities/angle.ts';
import type { Known } from '../quantities/estimate.ts';
import type { Settings } from '../settings.ts';
import { sigmaOf } from './accuracy.ts';
import { type Channel, fresh, type Source, serving } from './channel.ts';
import { depthOf } from './depth.ts';
import { trueHeading } from './heading.ts';
import { LIMITS, VARIATION_LIMIT } from './limits.ts';
import { type Motion, motionOf } from './motion.ts';
import { type Fix, positionLimit } from './position.ts';
import { hdopOf, receiverOf, statedSigma } from './receivers.ts';
import { rollerOf } from './roller.ts';
import type { VesselState } from './state.ts';
import { clockOffset } from './time.ts';
import { variationAt } from './variation.ts';
import type { Quantity, VesselView } from './view.ts';
import { computedWind, statedWind } from './wind.ts';

/** One-sigma error per axis of a source's fix, metres: see `sigmaOf`. */
export function sigmaOfFix(state: VesselState, source: Source<Fix>, at: number): number {
  const receiver = receiverOf(state.receivers, source);
  return sigmaOf(source.value, statedSigma(receiver, at), hdopOf(receiver, at));
}

/** Speed and course over the ground while they are fresh. */
export function motionNow(state: VesselState, settings: Settings, at: number): Motion | undefined {
  const source = fresh(state.motion, at, LIMITS.motion);
  if (!source) return undefined;
  const { value: said } = source;
  if (said.kind === 'motion' && said.cogMagnetic === undefined) return said;
  const variation = variationAt(state.variation, at);
  const heading =
    said.kind === 'ground-speed'
      ? trueHeading(state.heading, variation, settings.deviation, at)?.value
      : undefined;
  return motionOf(said, heading, variation?.value);
}

/**
 * The boat as known at `at` (UNIX seconds on the engine's timeline): only values that are fresh, the age of the others. Changes
 * nothing.
 */
export function view(state: VesselState, settings: Settings, at: number): VesselView {
  const seen: VesselView = { at, ages: {}, sources: {} };
  const offset = clockOffset(state.time, at);
  if (offset !== undefined) seen.clockOffset = offset;

  const variation = variationAt(state.variation, at);
  if (variation) seen.variation = variation.value;
  const heading = trueHeading(state.heading, variation, settings.deviation, at);
  if (heading) {
    seen.heading = heading;
    seen.sources.heading = heading.source;
  }
  const age = ageOfHeading(state, at);
  if (age !== undefined) seen.ages.heading = age;

  lookAtPosition(seen, state, settings);
  const motion = lookAtMotion(seen, state, settings);
  lookAtWind(seen, state, motion);

  const depth = look(seen, 'depth', state.depth);
  if (depth) seen.depth = known(depthOf(depth.value, settings.boat), depth, at);
  const waterSpeed = look(seen, 'water-speed', state.waterSpeed);
  if (waterSpeed) {
    const { ahead, athwart } = waterSpeed.value;
    seen.waterSpeed = known(athwart === undefined ? { ahead } : { ahead, athwart }, waterSpeed, at);
  }
  lookAtStream(seen, state);
  const temperature = look(seen, 'water-temperature', state.waterTemperature);
  if (temperature) seen.waterTemperature = known(temperature.value.celsius, temperature, at);
  return seen;
}

const known = <T>(value: T, source: Source<unknown>, at: number): Known<T> => ({
  value,
  at: source.at,
  age: at - source.at,
  source: source.key,
});

/** The fresh source of a quantity; its age is told whether it is fresh or not, its name only when it is. */
function look<V>(seen: VesselView, quantity: Quantity, channel: Channel<V>): Source<V> | undefined {
  const source = serving(channel);
  if (!source) return undefined;
  const age = seen.at - source.at;
  seen.ages[quantity] = age;
  if (age > LIMITS[quantity]) return undefined;
  seen.sources[quantity] = source.key;
  return source;
}

/** A magnetic heading is as old as its variation when that has outlived its limit; without one there has never been a heading. */
function ageOfHeading(state: VesselState, at: number): number | undefined {
  const compass = serving(state.heading);
  if (!compass) return undefined;
  const age = at - compass.at;
  if (compass.value.kind === 'heading' || variationAt(state.variation, at)) return age;
  const stated = serving(state.variation.channel);
  return stated && Math.max(age, at - stated.at - VARIATION_LIMIT);
}

function lookAtPosition(seen: VesselView, state: VesselState, settings: Settings): void {
  const { at } = seen;
  const { doubt, channel } = state.position;
  if (doubt && at <= doubt.until) seen.positionDoubt = { reason: doubt.reason, since: doubt.since };
  const source = serving(channel);
  if (!source) return;
  seen.ages.position = at - source.at;
  if (at - source.at > positionLimit(source.interval)) return;
  const sigma = sigmaOfFix(state, source, at);
  seen.sources.position = source.key;
  seen.positionSigma = sigma;
  seen.antenna = known({ lat: source.value.lat, lon: source.value.lon }, source, at);
  const { lat, lon, sigma: rollerSigma } = rollerOf(source.value, sigma, settings.boat.antenna, seen.heading);
  seen.roller = { ...known({ lat, lon }, source, at), sigma: rollerSigma };
}

function lookAtMotion(seen: VesselView, state: VesselState, settings: Settings): Motion | undefined {
  const source = look(seen, 'motion', state.motion);
  if (!source) return undefined;
  const motion = motionNow(state, settings, seen.at);
  if (motion?.sog !== undefined) seen.sog = known(motion.sog, source, seen.at);
  if (motion?.cog !== undefined) seen.cog = known(motion.cog, source, seen.at);
  return motion;
}

/** The age of the wind is that of the younger of apparent and stated ground wind: either tells that it blows. */
function lookAtWind(seen: VesselView, state: VesselState, motion: Motion | undefined): void {
  const { at, heading, variation, sog } = seen;
  const stated = look(seen, 'wind', state.windGround);
  const statedAge = seen.ages.wind;
  const apparent = look(seen, 'wind', state.windApparent);
  if (statedAge !== undefined) seen.ages.wind = Math.min(statedAge, seen.ages.wind ?? statedAge);
  if (apparent) {
    const { angle, speed } = apparent.value;
    seen.windApparent = known({ angle, speed }, apparent, at);
  }
  const ground =
    (stated && statedWind(stated, variation, at)) ??
    (apparent && heading && motion && sog ? computedWind(apparent, heading, motion, sog.at, at) : undefined);
  if (ground) seen.windGround = ground;
}

function lookAtStream(seen: VesselView, state: VesselState): void {
  const source = look(seen, 'stream', state.stream);
  if (!source) return;
  const { set, setMagnetic, drift } = source.value;
  const magnetic =
    setMagnetic === undefined || seen.variation === undefined
      ? undefined
      : direction(setMagnetic + seen.variation);
  const towards = set ?? magnetic;
  if (towards !== undefined) seen.stream = known({ set: towards, drift }, source, seen.at);
}
