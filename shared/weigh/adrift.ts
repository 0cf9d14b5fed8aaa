import { direction, turn } from '../quantities/angle.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { directionOf, towards, type Vector } from '../quantities/vector.ts';
import type { Settings } from '../settings.ts';
import type { VesselView } from '../vessel/view.ts';
import { lasting } from './lasting.ts';
import { ADRIFT, RULES, STAY, TAKING } from './limits.ts';
import { velocityOf } from './range.ts';
import type { Given, WeighState } from './state.ts';
import type { WeighView } from './view.ts';

/**
 * Has the anchor broken out? Either less cable is out than reaches the bottom, or the roller is where no held cable lets it be: farther
 * from the mark than the taut reach, or farther from where it was while up and down. Told by the foredeck: see weigh.ts.
 */
export function watchBreakOut(
  state: WeighState,
  { boat }: Settings,
  vessel: VesselView,
  distance: Estimate | undefined,
  height: Estimate | undefined,
  out: WeighView['out'],
): void {
  if (state.brokenOut || !height || !out) return;
  const { at } = vessel;
  const hangs =
    out.from !== 'bounds' && out.value + STAY.clear + 2 * Math.hypot(out.sigma, height.sigma) < height.value;
  const upper = out.value + 2 * out.sigma;
  const reach = Math.sqrt(Math.max(0, (upper - height.value) * (upper + height.value)));
  const here = state.track.at(-1);
  // Without a heading the antenna stands for the roller and swings round it.
  const allowance = vessel.heading ? 0 : 2 * Math.hypot(boat.antenna.aftOfRoller, boat.antenna.toStarboard);
  let away: boolean | undefined;
  if (distance && here && !vessel.positionDoubt) {
    away = distance.value > reach + ADRIFT.sigmas * distance.sigma;
    if (state.stay?.name === 'up-and-down') away ||= leftOver(state, here, reach + allowance);
    else delete state.over;
  }
  if (lasting(state, 'hangs', RULES.brokenOut, hangs, at)) state.brokenOut = { at, from: 'cable' };
  else if (lasting(state, 'away', RULES.brokenOut, away, at)) state.brokenOut = { at, from: 'motion' };
}

/** Places of the roller that make the mean, while up and down. */
const MEAN = 15;

/** Whether she has left the place over the anchor, by the receiver's short-time error only: the mark's doesn't count here. */
function leftOver(state: WeighState, here: Vector, reach: number): boolean {
  const { over } = state;
  if (!over) {
    state.over = { east: here.east, north: here.north, count: 1 };
    return false;
  }
  if (Math.hypot(here.east - over.east, here.north - over.north) > reach + ADRIFT.beyond) return true;
  if (over.count < MEAN) {
    over.count++;
    over.east += (here.east - over.east) / over.count;
    over.north += (here.north - over.north) / over.count;
  }
  return false;
}

/** Free of the bottom and moving: how, and how far it is to what lies that way. */
export function adriftOf(state: WeighState, given: Given, at: number): WeighView['adrift'] {
  const velocity = state.brokenOut && velocityOf(state, at);
  if (!velocity || velocity.speed < ADRIFT.speed) return undefined;
  const toward = directionOf(velocity);
  const edge = toEdge(state, given, toward);
  const shoal = toShoal(state, toward);
  return {
    speed: velocity.speed,
    toward,
    ...(edge === undefined ? {} : { edge }),
    ...(shoal === undefined ? {} : { shoal }),
  };
}

/** Moves along her heading: somebody steers her. Undefined without a heading. */
export function isUnderWay({ heading }: VesselView, toward: number): boolean | undefined {
  return heading && Math.abs(turn(heading.value, toward)) <= ADRIFT.underWay;
}

/** Metres to the edge of the circle along a direction; 0 outside of it. */
function toEdge(state: WeighState, { circleRadius }: Given, toward: number): number | undefined {
  const here = state.track.at(-1);
  if (circleRadius === undefined || !here) return undefined;
  const way = towards(1, toward);
  const along = here.east * way.east + here.north * way.north;
  const inside = circleRadius ** 2 - here.east ** 2 - here.north ** 2;
  return inside <= 0 ? 0 : -along + Math.sqrt(along * along + inside);
}

/** Metres until the water under the keel is less than half a metre, if the bottom goes on rising as over the last seconds. */
function toShoal(state: WeighState, toward: number): number | undefined {
  const way = towards(1, toward);
  const points = state.track.flatMap(({ east, north, keel }) =>
    keel === undefined ? [] : [{ along: east * way.east + north * way.north, keel }],
  );
  if (points.length < 4) return undefined;
  const middle = points.reduce((sum, { along }) => sum + along, 0) / points.length;
  let up = 0;
  let down = 0;
  for (const { along, keel } of points) {
    up += (along - middle) * keel;
    down += (along - middle) ** 2;
  }
  const keel = points.at(-1)!.keel - ADRIFT.keel;
  if (keel <= 0) return 0;
  if (down < 1) return undefined;
  const rises = -up / down;
  const far = keel / rises;
  return rises > 0 && far < ADRIFT.farthest ? far : undefined;
}

/** Which of wind and stream takes her over the ground; undefined when she lies still or neither is known. */
export function takingOf(
  state: WeighState,
  { windGround }: VesselView,
  { stream }: Given,
  at: number,
): WeighView['taking'] {
  const velocity = velocityOf(state, at);
  if (!velocity || velocity.speed < TAKING.speed) return undefined;
  const toward = directionOf(velocity);
  const wind = windGround && {
    toward: direction(windGround.value.from + 180),
    speed: TAKING.windPart * windGround.value.speed,
  };
  const water = stream && { toward: stream.set.value, speed: stream.drift.value };
  const pushes = (by: { toward: number; speed: number } | undefined) =>
    by ? by.speed * Math.cos((turn(by.toward, toward) * Math.PI) / 180) : 0;
  const byWind = pushes(wind);
  const byStream = pushes(water);
  // Faster than both push her, or against both: it is the engine that takes her.
  if (Math.max(byWind, byStream) < velocity.speed / 3) return undefined;
  const alike = wind && water && Math.abs(turn(wind.toward, water.toward)) <= TAKING.apart;
  const by = alike ? 'both' : byWind > byStream ? 'wind' : 'stream';
  return { by, speed: velocity.speed, toward };
}
