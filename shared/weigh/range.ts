import { distanceBearing } from '../earth/geodesic.ts';
import { degrees, signed, turn } from '../quantities/angle.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { size, towards, type Vector } from '../quantities/vector.ts';
import type { Settings } from '../settings.ts';
import type { VesselView } from '../vessel/view.ts';
import { APPROACH, HEIGHT, LEAD, TRACK } from './limits.ts';
import type { Given, Point, WeighState } from './state.ts';
import type { LeadName, LeadView } from './view.ts';

/** Roller to anchor: metres with the sigma of mark and fix, direction true. */
export function rangeOf(
  { roller }: VesselView,
  { mark }: Given,
): { distance: Estimate; bearing: number } | undefined {
  if (!roller) return undefined;
  const { distance, bearing } = distanceBearing(roller.value, mark);
  return { distance: { value: distance, sigma: Math.hypot(mark.sigma, roller.sigma) }, bearing };
}

/** Keeps the last places of the roller; another mark begins them anew. */
export function follow(state: WeighState, vessel: VesselView, { mark }: Given): void {
  const { roller, depth } = vessel;
  if (!roller) return;
  if (state.from?.lat !== mark.lat || state.from?.lon !== mark.lon) {
    state.from = { lat: mark.lat, lon: mark.lon };
    state.track = [];
    delete state.over;
    delete state.offset;
    delete state.began;
  }
  const { distance, bearing } = distanceBearing(roller.value, mark);
  state.began ??= distance;
  const last = state.track.at(-1);
  if (last && roller.at - last.at < TRACK.spacing) return;
  const place = towards(-distance, bearing);
  const keel = depth?.value.keel;
  state.track.push({ at: roller.at, ...place, ...(keel === undefined ? {} : { keel }) });
  while (roller.at - state.track[0]!.at > TRACK.span) state.track.shift();
}

/** Slope of a value against time over the places kept; undefined while there are too few. */
function slope(track: readonly Point[], value: (point: Point) => number): number | undefined {
  if (track.length < TRACK.least) return undefined;
  const t0 = track.reduce((sum, { at }) => sum + at, 0) / track.length;
  let up = 0;
  let down = 0;
  for (const point of track) {
    up += (point.at - t0) * value(point);
    down += (point.at - t0) ** 2;
  }
  return down > 0 ? up / down : undefined;
}

/** Speed towards the anchor, m/s, over the last ten seconds. */
export function closingOf(state: WeighState, at: number): Estimate | undefined {
  const { track } = state;
  if (at - (track.at(-1)?.at ?? 0) > TRACK.span / 2) return undefined;
  const away = slope(track, (point) => Math.hypot(point.east, point.north));
  // A quarter of a metre of noise from fix to fix over so many seconds.
  return away === undefined ? undefined : { value: -away, sigma: 0.9 / track.length ** 1.5 + 0.03 };
}

/** Velocity of the roller over the ground over the last ten seconds, m/s. */
export function velocityOf(state: WeighState, at: number): (Vector & { speed: number }) | undefined {
  if (at - (state.track.at(-1)?.at ?? 0) > TRACK.span / 2) return undefined;
  const east = slope(state.track, (point) => point.east);
  const north = slope(state.track, (point) => point.north);
  return east === undefined || north === undefined
    ? undefined
    : { east, north, speed: size({ east, north }) };
}

/** Roller above the bottom: depth from the surface (below the transducer, when that is all) plus the roller's height. */
export function heightOf(state: WeighState, { boat }: Settings, at: number): Estimate | undefined {
  const { depth } = state;
  if (!depth || at - depth.at > HEIGHT.age) return undefined;
  return { value: depth.metres + boat.roller.height, sigma: HEIGHT.sigma };
}

/** Keeps what sets her off her heading, as log, compass and positions tell it together. */
export function keepDrift(state: WeighState, { heading, waterSpeed, at }: VesselView): void {
  const velocity = velocityOf(state, at);
  if (!velocity || !heading || !waterSpeed) return;
  const through = towards(waterSpeed.value.ahead, heading.value);
  const now = { east: velocity.east - through.east, north: velocity.north - through.north };
  const before = state.drift ?? { ...now, at };
  const part = 1 - Math.exp(-(at - before.at) / APPROACH.drift);
  state.drift = {
    east: before.east + part * (now.east - before.east),
    north: before.north + part * (now.north - before.north),
    at,
  };
}

export function keepDepth(state: WeighState, { depth }: VesselView): void {
  if (depth) state.depth = { metres: depth.value.surface ?? depth.value.measured, at: depth.at };
}

/** How the cable leads: as the foredeck has pointed out lately, else from bearing and heading while these are sure enough. */
export function leadOf(
  state: WeighState,
  { boat }: Settings,
  vessel: VesselView,
  range: ReturnType<typeof rangeOf>,
): LeadView | undefined {
  const limit = LEAD.limit[boat.hull];
  const told = state.pointed;
  if (told && vessel.at - told.at <= LEAD.foredeckHolds)
    return { ...named(told.angle), sigma: LEAD.clockSigma, from: 'foredeck', limit };
  const { heading } = vessel;
  if (!heading || !range) return undefined;
  const { distance, bearing } = range;
  const sigma = Math.hypot(heading.sigma, degrees(Math.atan2(distance.sigma, distance.value)));
  if (sigma > LEAD.leastSure) return undefined;
  return { ...named(turn(heading.value, bearing)), sigma, from: 'compass', limit };
}

function named(angle: number): { angle: number; clock: number; name: LeadName } {
  const off = Math.abs(angle);
  const name =
    off <= LEAD.ahead
      ? 'ahead'
      : off <= LEAD.bow
        ? 'on-the-bow'
        : off <= LEAD.abeam
          ? 'abeam'
          : 'under-the-hull';
  return { angle, clock: ((Math.round(angle / 30) + 11) % 12) + 1, name };
}

/** Angle off the bow of a clock hour, the bow being 12. */
export const angleOfClock = (hour: number): number => signed(hour * 30);
