import { reachNow } from '../cable/reach.ts';
import { localPlane } from '../earth/local.ts';
import { circularMean, turn } from '../quantities/angle.ts';
import { add, scale, towards, type Vector } from '../quantities/vector.ts';
import type { Settings } from '../settings.ts';
import { type ArcFit, type ArcOptions, type ArcPoint, fitArc } from './arc.ts';
import type { Placed } from './mark.ts';
import type { TrackPoint } from './view.ts';

const TRACK = {
  /** Fewest points, and seconds from first to last, that are worth a fit. [P] */
  points: 20,
  seconds: 300,
  /** Points of the track that are used at most. */
  most: 400,
  /** Errors that the fixes share: that of the receiver, correlated over minutes to hours (nmea-0183.md §4), m; points of so many seconds share theirs. */
  slowSigma: 1.6,
  shared: 120,
  noise: 1,
  /** Sigma of the line from bow to anchor told by the heading: she sheers, and a stream holds her off it, degrees. [P] */
  sightSigma: 15,
  /** Metres inside the arc at which a point counts half. [P] */
  inside: 2,
  /** A mark less certain than this is not worth setting, m. */
  widest: 12,
  /** Two centres that fit nearly as well as each other cannot be told apart: difference of the sums of squares. */
  apart: 6,
  /** Starts all round, without a heading. */
  starts: 12,
} as const;

const DEPTH_UNHEARD = 6;
/** Wind that is assumed where a point has none, m/s. */
const WIND_UNHEARD = 6;
const LEAST_WIND = 4.5;

const unavailable = (why: string): Placed => ({ ok: false, problem: 'unavailable', why });

/**
 * The mark as the centre of the arc that the roller has swept, its radius known from the cable (`out` metres beyond the roller): fit
 * and sources see `fitArc`. Says why not when the track is too short, or when it leaves open on which side the anchor lies.
 */
export function fromTrack(track: readonly TrackPoint[], out: number | undefined, settings: Settings): Placed {
  if (out === undefined)
    return unavailable(
      'To find the mark from the track hawse has to know how much cable is out. Tell it the metres veered first.',
    );
  const newest = track.at(-1);
  if (newest && !(radiusAt(newest, out, settings) > 0))
    return unavailable(`${out} m of cable do not reach the bottom in this depth: is the length right?`);
  const points = newest ? lately(track, newest, out) : [];
  const span = newest && points[0] ? newest.at - points[0].at : 0;
  if (!newest || points.length < TRACK.points || span < TRACK.seconds)
    return unavailable(
      `The track is too short to find the mark from: ${points.length} points in ${Math.round(span / 60)} min, and it takes ` +
        `${TRACK.points} points and ${TRACK.seconds / 60} min. Wait, or tell the mark by bearing and distance.`,
    );
  const plane = localPlane(newest);
  const arc = points.map((point) => ({ ...plane.toLocal(point), radius: radiusAt(point, out, settings) }));
  const fit = bestFit(points, arc, Math.max(1, (points.length * TRACK.shared) / span));
  if (!fit)
    return unavailable(
      'The track leaves open on which side the anchor lies: the arc is short and there is no heading. Wait until she has swung, or tell the mark by bearing and distance.',
    );
  const sigma = Math.hypot(fit.sigma, TRACK.slowSigma);
  if (sigma > TRACK.widest)
    return unavailable(
      `The arc is too short: the mark would be uncertain by ${Math.round(sigma)} m. Wait until she has swung more, or tell the mark by bearing and distance.`,
    );
  return { ok: true, ...plane.toLatLon(fit), sigma, how: 'track' };
}

/** What she has swept since she last came from outside the reach of her cable, evenly thinned. */
function lately(track: readonly TrackPoint[], newest: TrackPoint, out: number): TrackPoint[] {
  const plane = localPlane(newest);
  let first = track.length - 1;
  for (; first > 0; first--) {
    const { east, north } = plane.toLocal(track[first - 1]!);
    if (Math.hypot(east, north) > 2 * out) break;
  }
  const own = track.slice(first);
  const every = Math.ceil(own.length / TRACK.most);
  return own.filter((_, i) => (own.length - 1 - i) % every === 0);
}

function radiusAt({ depth, wind }: TrackPoint, veered: number, { boat, cable }: Settings): number {
  const now = reachNow({
    veered,
    depth: depth ?? DEPTH_UNHEARD,
    rollerHeight: boat.roller.height,
    massPerMetre: cable.massPerMetre,
    boat,
    windSpeed: Math.hypot(wind ?? WIND_UNHEARD, LEAST_WIND),
  });
  return now?.reach.value ?? 0;
}

function bestFit(points: readonly TrackPoint[], arc: readonly ArcPoint[], share: number): ArcFit | undefined {
  const radius = arc.reduce((sum, point) => sum + point.radius, 0) / arc.length;
  const middle: Vector = {
    east: arc.reduce((sum, { east }) => sum + east, 0) / arc.length,
    north: arc.reduce((sum, { north }) => sum + north, 0) / arc.length,
  };
  const fitFrom = (start: Vector, sight?: ArcOptions['sight']) =>
    fitArc(arc, {
      start,
      ...(sight ? { sight } : {}),
      noise: TRACK.noise,
      radiusSigma: Math.max(1, 0.03 * radius),
      share,
      inside: TRACK.inside,
    });
  const seen = sightOf(points, arc);
  if (seen)
    return fitFrom(seen.start, {
      towards: seen.towards,
      across: radius * Math.sin((TRACK.sightSigma * Math.PI) / 180),
    });
  const fits = Array.from({ length: TRACK.starts }, (_, i) =>
    fitFrom(add(middle, scale(towards(1, (360 * i) / TRACK.starts), radius))),
  ).filter((one) => one !== undefined);
  const best = fits.reduce<ArcFit | undefined>((a, b) => (!a || b.cost < a.cost ? b : a), undefined);
  const far = (one: ArcFit) => Math.hypot(one.east - best!.east, one.north - best!.north) > radius / 2;
  return best && !fits.some((one) => far(one) && one.cost < best.cost + TRACK.apart) ? best : undefined;
}

/** Where the bow points to the anchor, the middle of all points that tell a heading. */
function sightOf(
  points: readonly TrackPoint[],
  arc: readonly ArcPoint[],
): { start: Vector; towards: Vector } | undefined {
  const guesses: Vector[] = [];
  const headings: number[] = [];
  for (const [i, { heading }] of points.entries()) {
    if (heading === undefined) continue;
    const { radius, ...place } = arc[i]!;
    headings.push(heading);
    guesses.push(add(place, towards(radius, heading)));
  }
  if (guesses.length < TRACK.points) return undefined;
  const mid = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1]!;
  const start = { east: mid(guesses.map(({ east }) => east)), north: mid(guesses.map(({ north }) => north)) };
  const way = circularMean(headings)?.mean;
  if (way === undefined || headings.some((one) => Math.abs(turn(way, one)) > 90)) {
    // She has swung so far that there is no one line of sight: the arc itself tells more.
    return { start, towards: { east: 0, north: 0 } };
  }
  return { start, towards: towards(1, way) };
}
