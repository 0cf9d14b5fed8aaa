import type { Extent } from '../ais/message.ts';
import { distanceBearing } from '../earth/geodesic.ts';
import { type LocalPlane, localPlane } from '../earth/local.ts';
import { reciprocal } from '../quantities/angle.ts';
import type { LatLon } from '../quantities/estimate.ts';
import { add, size, towards } from '../quantities/vector.ts';
import { type HerCable, herCable } from './circle.ts';
import { dragging } from './dragging.ts';
import { clearOf, clearWater, type HullLine, hullLine } from './hull.ts';
import { NEIGHBOURS } from './limits.ts';
import type { Own } from './own.ts';
import { passing } from './passing.ts';
import type { NeighboursState, Target, Told } from './state.ts';
import { outOfStepLeast, type Swinging, togetherLeast } from './swing.ts';
import type { Activity, NeighbourView } from './view.ts';

/** ITU-R M.1371: navigational status of class A. */
const AT_ANCHOR = 1;
const MOORED = 5;
/** How many guesses of an anchor are averaged before the older ones fade. */
const GUESSES = 40;
/** … and after how many one that is far off is left out. */
const TRUSTED = 3;

/** All neighbours as of `own.at`, nearest first. Forgets those that are gone, and learns where the others' anchors lie. */
export function lookAround(state: NeighboursState, own: Own): NeighbourView[] {
  state.targets = state.targets.filter(({ heardAt }) => own.at - heardAt < NEIGHBOURS.gone);
  const plane = own.roller && localPlane(own.roller);
  const views: NeighbourView[] = [];
  for (const target of state.targets) {
    const view = heardView(target, own, plane);
    if (view) views.push(view);
  }
  for (const told of state.told) views.push(toldView(told, own, plane));
  const rank = ({ distance }: NeighbourView) => distance ?? Number.POSITIVE_INFINITY;
  return views
    .filter((view) => view.from === 'hand' || rank(view) < NEIGHBOURS.farthest || view.distance === undefined)
    .sort((a, b) => rank(a) - rank(b));
}

function heardView(target: Target, own: Own, plane: LocalPlane | undefined): NeighbourView | undefined {
  const { place } = target;
  if (!place) return undefined;
  const [activity, activityFrom] = activityOf(target, own.at);
  const lies = activity === 'at-anchor';
  const stale =
    own.at - target.at > (activity === 'under-way' ? NEIGHBOURS.staleUnderWay : NEIGHBOURS.staleAtRest);
  const heading = target.heading ?? (lies ? own.lie : (target.cog ?? undefined));
  const extent = target.extent ?? EXTENT;
  const view: NeighbourView = {
    id: `ais-${target.mmsi}`,
    from: 'ais',
    activity,
    activityFrom,
    place,
    at: target.at,
    extent,
    extentFrom: target.extent ? 'told' : 'assumed',
    ...(target.name === undefined ? {} : { name: target.name }),
    ...(stale ? { stale } : {}),
    ...(heading === undefined
      ? {}
      : { heading, headingFrom: target.heading === undefined ? 'assumed' : 'told' }),
    ...(target.sog === undefined ? {} : { sog: target.sog }),
    ...(target.cog === undefined ? {} : { cog: target.cog }),
  };
  if (!lies) delete target.anchor;
  const length = extent.toBow + extent.toStern;
  const beam = extent.toPort + extent.toStarboard;
  const cable = lies ? herCable(length, beam, own.depth, own.windSpeed, undefined) : undefined;
  if (cable && heading !== undefined) learnAnchor(target, heading, cable.reach + extent.toBow, stale);
  if (plane) relate(view, own, plane, cable, target.anchor);
  if (cable && target.anchor && !stale) {
    const drags = dragging(target, cable.reach + extent.toBow);
    if (drags) view.dragging = { ...drags, ...(plane ? reachesUs(view, drags, own, plane) : {}) };
  }
  return view;
}

/** A vessel told by hand swings as we do: her bow is where her cable and our lie put it. */
function toldView(told: Told, own: Own, plane: LocalPlane | undefined): NeighbourView {
  const length = told.length ?? NEIGHBOURS.length;
  const beam = length / 3;
  const cable = herCable(length, beam, own.depth, own.windSpeed, told.veered);
  const from = localPlane(told.anchor);
  const place =
    own.lie === undefined
      ? told.anchor
      : from.toLatLon(towards(cable?.reach ?? told.reach, reciprocal(own.lie)));
  const view: NeighbourView = {
    id: told.id,
    from: 'hand',
    activity: 'at-anchor',
    activityFrom: 'hand',
    place,
    at: told.at,
    extent: { toBow: 0, toStern: length, toPort: beam / 2, toStarboard: beam / 2 },
    extentFrom: told.length === undefined ? 'assumed' : 'told',
    ...(told.name === undefined ? {} : { name: told.name }),
    ...(own.lie === undefined ? {} : { heading: own.lie, headingFrom: 'assumed' as const }),
  };
  if (plane) relate(view, own, plane, cable, told.anchor);
  return view;
}

const EXTENT: Extent = {
  toBow: NEIGHBOURS.length / 2,
  toStern: NEIGHBOURS.length / 2,
  toPort: NEIGHBOURS.beam / 2,
  toStarboard: NEIGHBOURS.beam / 2,
};

/** Class B tells no status: who has lain still for some minutes is taken to be at anchor, and goes on so while she drags slowly. */
function activityOf({ status, restSince, sog, anchor }: Target, at: number): [Activity, 'told' | 'moves'] {
  if (status === AT_ANCHOR) return ['at-anchor', 'told'];
  if (status === MOORED) return ['moored', 'told'];
  if (restSince !== undefined && at - restSince >= NEIGHBOURS.restTime) return ['at-anchor', 'moves'];
  if (anchor && (sog ?? 0) < NEIGHBOURS.dragSpeed.most) return ['at-anchor', 'moves'];
  if (status !== undefined && status !== 0 && status !== 8) return ['unknown', 'told'];
  if (sog === undefined) return ['unknown', 'moves'];
  return sog >= NEIGHBOURS.restSpeed
    ? ['under-way', status === undefined ? 'moves' : 'told']
    : ['unknown', 'moves'];
}

/** Each guess is ahead of her by her reach; while she sheers they lie round the anchor, so their mean is better than each. */
function learnAnchor(target: Target, heading: number, ahead: number, stale: boolean): void {
  const { place, places } = target;
  if (!place || stale || (target.sog ?? 0) >= NEIGHBOURS.restSpeed) return;
  const guesses = target.anchor?.guesses ?? 0;
  // One guess for each place that is kept: a look every second tells nothing new.
  const kept = places.at(-1)!.at;
  if (target.anchor?.at === kept) return;
  const guess = localPlane(place).toLatLon(towards(ahead, heading));
  if (!target.anchor) {
    target.anchor = { ...guess, guesses: 1, at: kept };
    return;
  }
  const weight = 1 / Math.min(GUESSES, guesses + 1);
  const off = localPlane(target.anchor).toLocal(guess);
  // An anchor that seems to have gone elsewhere is what dragging looks like: nothing to learn from.
  const scatter = NEIGHBOURS.dragBeyond + NEIGHBOURS.dragShare * ahead;
  if (guesses >= TRUSTED && size(off) > scatter) return;
  const better = localPlane(target.anchor).toLatLon({ east: off.east * weight, north: off.north * weight });
  target.anchor = { ...better, guesses: guesses + 1, at: kept };
}

/** Distances and circles between her and us. */
function relate(
  view: NeighbourView,
  own: Own,
  plane: LocalPlane,
  cable: HerCable | undefined,
  anchor: LatLon | undefined,
): void {
  const ours = ownHull(own);
  const hers = hullLine(plane.toLocal(view.place), view.heading, view.extent);
  view.distance = clearWater(ours, hers);
  view.bearing = distanceBearing(own.roller!, view.place).bearing;
  const length = view.extent.toBow + view.extent.toStern;
  const beam = view.extent.toPort + view.extent.toStarboard;
  if (cable && anchor) {
    view.circle = {
      anchor: { lat: anchor.lat, lon: anchor.lon },
      radius: cable.reach + length,
      sigma: Math.hypot(cable.sigma, (cable.reach * NEIGHBOURS.lieSigma * Math.PI) / 360),
      veered: cable.veered,
      veeredFrom: cable.veeredFrom,
    };
    if (own.anchor && own.reach !== undefined) {
      const us: Swinging = {
        anchor: plane.toLocal(own.anchor),
        reach: own.reach,
        length: own.length,
        beam: own.beam,
      };
      const her: Swinging = { anchor: plane.toLocal(anchor), reach: cable.reach, length, beam };
      view.outOfStep = outOfStepLeast(us, her);
      if (view.outOfStep < NEIGHBOURS.apart) view.together = togetherLeast(us, her);
    }
  }
  if (own.anchor && !view.stale && clearOf(hers, plane.toLocal(own.anchor)) <= (own.anchorSigma ?? 0))
    view.overOurAnchor = true;
  const { sog, cog } = view;
  if (
    view.activity === 'under-way' &&
    !view.stale &&
    sog !== undefined &&
    cog !== undefined &&
    sog >= NEIGHBOURS.passing.speed
  ) {
    // Between two reports she goes on as she told.
    const since = own.at - view.at;
    const now = {
      ...hers,
      bow: add(hers.bow, towards(sog * since, cog)),
      stern: add(hers.stern, towards(sog * since, cog)),
    };
    const past = passing(ours, now, towards(sog, cog), NEIGHBOURS.passing.within);
    if (past) view.passing = past;
  }
}

function reachesUs(
  view: NeighbourView,
  { speed, toward }: { speed: number; toward: number },
  own: Own,
  plane: LocalPlane,
): { reachesUsIn?: number } {
  const hers = hullLine(plane.toLocal(view.place), view.heading, view.extent);
  const within = Math.min(3600, (view.distance ?? NEIGHBOURS.farthest) / speed + 600);
  const past = passing(ownHull(own), hers, towards(speed, toward), within);
  return past && past.distance < NEIGHBOURS.reachesWithin ? { reachesUsIn: past.in } : {};
}

const ownHull = (own: Own): HullLine =>
  hullLine({ east: 0, north: 0 }, own.heading, {
    toBow: 0,
    toStern: own.length,
    toPort: own.beam / 2,
    toStarboard: own.beam / 2,
  });
