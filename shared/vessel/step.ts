import { metresPerDegree, wrapLongitude } from '../earth/local.ts';
import type { LatLon } from '../quantities/estimate.ts';
import { scale, size, subtract, towards, type Vector } from '../quantities/vector.ts';

/** A receiver's fix with the velocity that it (or another receiver of the boat) gave at the time. */
export interface Moving extends LatLon {
  sog?: number | undefined;
  cog?: number | undefined;
}

/**
 * What an ordinary step may be beyond the reported velocity. Our choice, tuned on recorded boats: in the lake and IJsselmeer logs
 * (1 and 0.5 Hz, 1.85 m grid, up to 7 kn) steps stay below a third of it once the receiver has settled, and the jumps around the
 * freeze of lake-2014-06-27 (52 and 70 m in 1 s, 27 m from where the course led) are above it.
 */
const NOISE = 10;
/** m/s that a boat may gain or a damped speed may hide between two fixes. */
const HIDDEN_SPEED = 4.5;
/** m/s taken for a boat whose receiver tells no speed. */
const UNTOLD_SPEED = 5;

/** After a gap (seconds) a boat that lay still is expected where she was: within this many metres, and some drift for so long. */
const GAP = 10;
const GAP_NOISE = 25;
const GAP_DRIFT = { speed: 1, seconds: 20 };
/** A boat under way may change her speed during a gap: up to this many times the last one. */
const GAP_SPEED = 3;

/** Metres east and north from `a` to `b`, for points within a few kilometres. */
export function displacement(a: LatLon, b: LatLon): Vector {
  const perDegree = metresPerDegree(a.lat);
  return {
    east: wrapLongitude(b.lon - a.lon) * perDegree.lon,
    north: (b.lat - a.lat) * perDegree.lat,
  };
}

/** Mean reported velocity between two fixes, as far as speed and course are told. */
export function meanVelocity(a: Moving, b: Moving): Vector {
  const first = velocity(a) ?? velocity(b);
  const last = velocity(b) ?? first;
  if (!first || !last) return { east: 0, north: 0 };
  return { east: (first.east + last.east) / 2, north: (first.north + last.north) / 2 };
}

/** Slower than this (m/s) a boat without a course lies still. */
const STILL = 0.3;

function velocity({ sog, cog }: Moving): Vector | undefined {
  if (sog === undefined) return undefined;
  if (cog !== undefined) return towards(sog, cog);
  return sog < STILL ? { east: 0, north: 0 } : undefined;
}

/**
 * Why the step from fix `a` to fix `b`, `dt` seconds later, can't be one of the boat; undefined when it can. The receiver's own
 * velocity must account for it within noise: a jump that its speed and course do not confirm is none of hers.
 */
export function implausible(a: Moving, b: Moving, dt: number): string | undefined {
  const step = displacement(a, b);
  const metres = Math.round(size(step));
  if (dt > GAP) {
    const drift = GAP_DRIFT.speed * Math.min(dt, GAP_DRIFT.seconds);
    const allowed = GAP_NOISE + drift + GAP_SPEED * (a.sog ?? UNTOLD_SPEED) * dt;
    return size(step) > allowed
      ? `it came back ${metres} m away after ${Math.round(dt)} s without a fix`
      : undefined;
  }
  const speed = Math.max(a.sog ?? 0, b.sog ?? 0);
  const told = a.sog !== undefined || b.sog !== undefined;
  const unexplained = size(subtract(step, scale(meanVelocity(a, b), dt)));
  const allowed = NOISE + (HIDDEN_SPEED + (told ? 2 * speed : UNTOLD_SPEED)) * dt;
  return unexplained > allowed ? `it jumped ${metres} m in ${dt.toFixed(1)} s` : undefined;
}
