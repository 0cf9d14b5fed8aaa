import { metresPerDegree, wrapLongitude } from '../../earth/local.ts';
import { hypot, towards, type Vector } from '../../quantities/vector.ts';
import type { VesselView } from '../../vessel/view.ts';
import type { FilterModel } from './filter.ts';
import { RECEIVER } from './model.ts';

/** How far this receiver's positions go along with its own velocity, which knows nothing of their slow error: plain data. */
export interface Receiver {
  last?: { at: number; lat: number; lon: number; east: number; north: number };
  /** Metres that the position has moved beyond the velocity since some moment: now, summed up over the fixes of this block, and the mean of the block before. */
  apart: { east: number; north: number };
  sum: { east: number; north: number; fixes: number; dumb: number };
  before?: { east: number; north: number };
  /** Mean square of the steps between such means while nothing is thrown, m². */
  usual: number;
  /** Mean squares per axis: how far one velocity is from the next, (m/s)²; how far one fix is from where the velocity leads, m²; seconds between fixes. */
  jitter?: Jitter;
  /** Slow error as far as it shows in that: it fades as the slow error does. */
  drift: { east: number; north: number };
  /** Steps of the position that were thrown, not sailed, and that still last. */
  thrown: { east: number; north: number; variance: number };
  /** Part of the slow error's variance that shows in `drift`, 0 to 1. */
  seen: number;
  /** While it tells no velocity: the last place, and the mean square of the speed from fix to fix, m²/s². */
  pace?: { at: number; lat: number; lon: number; square: number };
  /** Until then it is too unsteady to raise anything by it, UNIX seconds. */
  unsteadyUntil?: number;
  /** Metres that the antenna has gone by velocity alone, and the roller from the antenna, kept for some time back. */
  sailed: { at: number; east: number; north: number; roller: { east: number; north: number } }[];
}

interface Jitter {
  velocity: number;
  position: number;
  every: number;
}

/** Fixes further apart than this (s) are not joined by their velocity. */
const JOINED = 5;

export const createReceiver = (): Receiver => ({
  apart: { east: 0, north: 0 },
  sum: { east: 0, north: 0, fixes: 0, dumb: 0 },
  drift: { east: 0, north: 0 },
  seen: 0,
  usual: RECEIVER.usual ** 2,
  thrown: { east: 0, north: 0, variance: 0 },
  sailed: [],
});

/** Takes in a fix: what it has moved since the last one by itself and by the velocity. `window`: seconds of it to be kept. */
export function hearFix(receiver: Receiver, { antenna, roller, sog, cog }: VesselView, window: number): void {
  const { last } = receiver;
  if (!antenna || !sog || (!cog && sog.value > 0.1)) {
    forgetFixes(receiver);
    if (antenna) watchPace(receiver, antenna);
    return;
  }
  delete receiver.pace;
  const velocity = cog ? towards(sog.value, cog.value) : { east: 0, north: 0 };
  const { lat, lon } = antenna.value;
  const { at } = antenna;
  const metres = metresPerDegree(lat);
  // Where the bow falls off the wind, the roller moves and the antenna hardly does.
  const lever = {
    east: roller ? wrapLongitude(roller.value.lon - lon) * metres.lon : 0,
    north: roller ? (roller.value.lat - lat) * metres.lat : 0,
  };
  if (last && at <= last.at) return;
  receiver.last = { at, lat, lon, ...velocity };
  if (!last || at - last.at > JOINED) {
    restart(receiver);
    receiver.sailed = [{ at, east: 0, north: 0, roller: lever }];
    return;
  }
  const dt = at - last.at;
  const east = ((velocity.east + last.east) / 2) * dt;
  const north = ((velocity.north + last.north) / 2) * dt;
  const { apart, sum, sailed } = receiver;
  const aside = {
    east: wrapLongitude(lon - last.lon) * metres.lon - east,
    north: (lat - last.lat) * metres.lat - north,
  };
  apart.east += aside.east;
  apart.north += aside.north;
  feelJitter(receiver, { east: velocity.east - last.east, north: velocity.north - last.north }, aside, dt);
  sum.east += apart.east;
  sum.north += apart.north;
  sum.fixes++;
  // Many a receiver says nought, with or without a course, to whatever is slow.
  if (!cog || sog.value === 0) sum.dumb++;
  const off = offNow(receiver);
  if (hypot(off.east, off.north) > RECEIVER.unsteady) receiver.unsteadyUntil = at + RECEIVER.calm;
  const start = sailed.at(-1)!;
  sailed.push({ at, east: start.east + east, north: start.north + north, roller: lever });
  while (sailed[0]!.at < at - window) sailed.shift();
}

/** As usual receivers have it, until this one is known; a checkpoint of an older hawse lacks it too. */
const jitterOf = (receiver: Receiver): Jitter => {
  receiver.jitter ??= { velocity: 2 * RECEIVER.speedSigma ** 2, position: 2 * RECEIVER.fast ** 2, every: 1 };
  return receiver.jitter;
};

/** The restlessness of velocity and position from fix to fix tells their white noise; single wild ones count for little. */
function feelJitter(receiver: Receiver, velocity: Vector, position: Vector, dt: number): void {
  const jitter = jitterOf(receiver);
  const part = dt / RECEIVER.jitterTime;
  const take = (now: number, { east, north }: Vector) =>
    now + part * (Math.min((east * east + north * north) / 2, RECEIVER.wild * now) - now);
  jitter.velocity = take(jitter.velocity, velocity);
  jitter.position = take(jitter.position, position);
  jitter.every += part * (dt - jitter.every);
}

/** Without a velocity only the pace of the fixes tells a bad sky: they hurry as no boat at anchor does. */
function watchPace(
  receiver: Receiver,
  { at, value: { lat, lon } }: NonNullable<VesselView['antenna']>,
): void {
  const { pace } = receiver;
  const dt = pace ? at - pace.at : 0;
  if (pace && dt <= 0) return;
  let square = pace?.square ?? 0;
  if (pace && dt <= JOINED) {
    const metres = metresPerDegree(lat);
    const step = hypot(wrapLongitude(lon - pace.lon) * metres.lon, (lat - pace.lat) * metres.lat);
    square += (1 - Math.exp(-dt / RECEIVER.paceTime)) * ((step / dt) ** 2 - square);
  }
  receiver.pace = { at, lat, lon, square };
  if (square > RECEIVER.pace ** 2) receiver.unsteadyUntil = at + RECEIVER.calm;
}

/**
 * The position has lately run away from the receiver's own velocity, as under a bad sky, before anybody calls it doubtful. Not so when
 * that velocity says nought: it may be one that never says anything else.
 */
export const shaken = ({ unsteadyUntil, last }: Receiver, at: number): boolean =>
  unsteadyUntil !== undefined &&
  at < unsteadyUntil &&
  hypot(last?.east ?? 0, last?.north ?? 0) > RECEIVER.tells;

/** Metres that the position has been thrown by since the block before, as far as the velocity knows. */
export function offNow({ apart, before }: Receiver): { east: number; north: number } {
  return before
    ? { east: apart.east - before.east, north: apart.north - before.north }
    : { east: 0, north: 0 };
}

/**
 * The position has been doubtful since some moment: it must be calm for some time before anything is raised by it. After a short
 * doubt (one jump there and back) the slow error is the one it was; after a long one it is another.
 */
export function doubtReceiver(receiver: Receiver, at: number, since: number): void {
  forgetFixes(receiver);
  receiver.unsteadyUntil = at + RECEIVER.calm;
  if (at - since < RECEIVER.shortDoubt) return;
  receiver.thrown = { east: 0, north: 0, variance: 0 };
  receiver.drift = { east: 0, north: 0 };
  receiver.seen = 0;
}

export function forgetFixes(receiver: Receiver): void {
  delete receiver.last;
  receiver.sailed = [];
  restart(receiver);
}

function restart(receiver: Receiver): void {
  receiver.apart = { east: 0, north: 0 };
  receiver.sum = { east: 0, north: 0, fixes: 0, dumb: 0 };
  delete receiver.before;
}

/** Metres that the roller has gone in a direction (unit vector) in the last `seconds` by velocity and heading, not by positions; undefined while that is not known. */
export function gone({ sailed }: Receiver, east: number, north: number, seconds: number): number | undefined {
  const last = sailed.at(-1);
  const first = last && sailed.find(({ at }) => at >= last.at - seconds);
  if (!first || !last || first === last) return undefined;
  const along = (one: typeof first) =>
    (one.east + one.roller.east) * east + (one.north + one.roller.north) * north;
  return along(last) - along(first);
}

/** Slow error that is known at present, metres. */
export const errorOf = ({ drift, thrown }: Receiver): { east: number; north: number } => ({
  east: drift.east + thrown.east,
  north: drift.north + thrown.north,
});

/** Ends a block of `seconds`; true when the position was thrown in it. */
export function endBlock(receiver: Receiver, seconds: number, model: FilterModel): boolean {
  const { thrown, drift, sum, before } = receiver;
  const { fixes, dumb } = sum;
  const keep = Math.exp(-seconds / model.slowTime);
  for (const error of [thrown, drift]) {
    error.east *= keep;
    error.north *= keep;
  }
  thrown.variance *= keep * keep;
  const mean = fixes > 0 ? { east: sum.east / fixes, north: sum.north / fixes } : undefined;
  receiver.sum = { east: 0, north: 0, fixes: 0, dumb: 0 };
  if (mean) receiver.before = mean;
  else delete receiver.before;
  if (!mean || !before) {
    receiver.seen *= keep;
    return false;
  }
  const east = mean.east - before.east;
  const north = mean.north - before.north;
  const size = hypot(east, north);
  const most = RECEIVER.times * Math.min(RECEIVER.most, Math.sqrt(receiver.usual));
  receiver.usual += (Math.min(size, most) ** 2 - receiver.usual) / RECEIVER.blocks;
  if (size > Math.max(RECEIVER.thrown, most)) {
    thrown.east += east;
    thrown.north += north;
    thrown.variance += (RECEIVER.doubt * size) ** 2;
    return true;
  }
  // A Kalman gain: how fast the slow error walks, against how far the velocity may be wrong in a block. White noise of the velocity adds
  // up; what the steps have beyond it, and beyond the white noise of the fixes, is the position's walk.
  const jitter = jitterOf(receiver);
  const blurred =
    Math.max(RECEIVER.leastSpeed ** 2, jitter.velocity / 2) * jitter.every * seconds +
    (RECEIVER.dumbSpeed * (dumb / fixes) * seconds) ** 2;
  const walks = Math.max(
    model.slowSigma ** 2 * (1 - keep * keep),
    receiver.usual / 2 - blurred - jitter.position / fixes,
  );
  const gain = walks / (walks + blurred + jitter.position / fixes);
  drift.east += gain * east;
  drift.north += gain * north;
  const far = hypot(drift.east, drift.north) / RECEIVER.drift;
  if (far > 1) {
    drift.east /= far;
    drift.north /= far;
  }
  receiver.seen += (1 - keep * keep) * (gain - receiver.seen);
  return false;
}
