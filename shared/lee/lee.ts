import { localPlane } from '../earth/local.ts';
import type { LatLon } from '../quantities/estimate.ts';
import { add, directionOf, scale, size, towards, type Vector } from '../quantities/vector.ts';
import type { LeeView } from './view.ts';
import { leeReport } from './words.ts';

/**
 * Free drift of a sailing boat with bare masts, as a share of the wind over the ground, and its standard deviation in m/s
 * (seamanship-physics.md §10, OpenDrift OBJECTPROP.DAT after Allen & Plourde 1999 [F]). A boat that drags her anchor goes slower.
 */
export const BARE_MASTS = { ofWind: 0.0523, sigma: 0.185 };

/** What hawse knows of that may lie to leeward. */
export interface Around {
  roller: LatLon;
  length: number;
  wind: { from: number; speed: number };
  stream?: { set: number; drift: number };
  neighbours: readonly { name?: string; place: LatLon; length: number }[];
  sectors: readonly { name?: string; contains(point: LatLon): boolean }[];
  /** Water under the keel there now, m; undefined where nothing has been sounded. */
  underKeelAt?(point: LatLon): number | undefined;
}

/** How far is looked, and how finely, m. */
const FAR = 1000;
const STEP = 2;
/** She may go so far to either side of the line, degrees, and a hull is no point, m. */
const SPREAD = 12;
const BESIDE = 8;
/** Less than this under the keel stops her, m: waves. */
const TOUCHES = 0.3;
/** Slower than this she does not leave, m/s. */
const STILL = 0.05;

/** Where she drifts if the anchor goes now, and what she comes upon first. hawse has no chart: the note says so. */
export function leeNote(around: Around): LeeView | undefined {
  const { wind, stream } = around;
  const byWind = towards(BARE_MASTS.ofWind * wind.speed, wind.from + 180);
  const velocity = stream ? add(byWind, towards(stream.drift, stream.set)) : byWind;
  const speed = size(velocity);
  if (speed < STILL) return undefined;
  const toward = directionOf(velocity);
  const drift = { value: speed, sigma: Math.hypot(BARE_MASTS.sigma, 0.3 * (stream?.drift ?? 0)) };
  const first = firstMet(around, scale(velocity, 1 / speed));
  const met = first && { ...first, in: first.distance / speed };
  const view = { toward, drift, ...(met ? { first: met } : {}) };
  return { ...view, report: leeReport(view, stream !== undefined) };
}

type Met = Omit<NonNullable<LeeView['first']>, 'in'>;

function firstMet(
  { roller, length, neighbours, sectors, underKeelAt }: Around,
  ahead: Vector,
): Met | undefined {
  const plane = localPlane(roller);
  const hulls = neighbours.map((one) => ({ ...one, at: plane.toLocal(one.place) }));
  for (let d = STEP; d <= FAR; d += STEP) {
    const here = scale(ahead, d);
    const beside = BESIDE + d * Math.tan((SPREAD * Math.PI) / 180);
    for (const { name, at, length: hers } of hulls) {
      const off = Math.hypot(at.east - here.east, at.north - here.north);
      if (off < hers / 2 + beside && isAhead(at, ahead))
        return met('neighbour', Math.max(0, Math.min(d, along(at, ahead)) - length / 2), name);
    }
    const point = plane.toLatLon(here);
    for (const { name, contains } of sectors) if (contains(point)) return met('sector', d, name);
    const water = underKeelAt?.(point);
    if (water !== undefined && water < TOUCHES) return met('shoal', d, undefined);
  }
  return undefined;
}

const along = (at: Vector, ahead: Vector): number => at.east * ahead.east + at.north * ahead.north;
const isAhead = (at: Vector, ahead: Vector): boolean => along(at, ahead) > 0;

const met = (what: Met['what'], distance: number, name: string | undefined): Met => ({
  what,
  distance,
  ...(name === undefined ? {} : { name }),
});
