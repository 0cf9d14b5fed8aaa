import type { Vector } from '../quantities/vector.ts';

/** A place on the swept arc, metres east and north, and the radius that the cable allows there. */
export interface ArcPoint extends Vector {
  radius: number;
}

export interface ArcOptions {
  /** Where to begin, and how wide it may be off the line of sight that was told by the heading: sigma across `towards` (unit vector), m. */
  start: Vector;
  sight?: { towards: Vector; across: number };
  /** Sigma of one independent point, m, and of what all radii have in common; Infinity: the radius is free. */
  noise: number;
  radiusSigma: number;
  /** Points that stand for one independent one, since neighbours in time share their error. */
  share: number;
  /** Metres inside the arc at which a point loses half its weight: the cable forbids farther, not nearer. Infinity: both sides count. */
  inside: number;
}

export interface ArcFit extends Vector {
  /** What all radii are longer than told, m. */
  longer: number;
  /** Larger one-sigma of the centre along any direction, m. */
  sigma: number;
  /** Weighted sum of squares, in sigmas of independent points. */
  cost: number;
}

const STEPS = 60;

/**
 * Centre of a swept arc: least squares of the distances to it (geometric fit; Gander, Golub & Strebel, BIT 34 (1994), 558–578), with
 * the radius known from the cable, as short arcs need (seamanship-physics.md §11: an arc of 20° tells the centre to 32 m with the
 * radius free, to 0.15 m with it known). Gauss–Newton with damping; points inside are weighted down anew each step, points far
 * outside by Huber's loss (k = 1.345). Undefined when the points do not tell a centre.
 */
export function fitArc(points: readonly ArcPoint[], options: ArcOptions): ArcFit | undefined {
  let at = [options.start.east, options.start.north, 0];
  let now = sums(points, options, at);
  let damping = 1e-3;
  for (let i = 0; i < STEPS; i++) {
    const step = solve(now.normal, now.right, damping);
    if (!step) return undefined;
    const next = at.map((value, k) => value + step[k]!);
    const then = sums(points, options, next);
    if (then.cost <= now.cost * (1 + 1e-12) || Math.hypot(...step) < 1e-9) {
      at = next;
      now = then;
      damping = Math.max(1e-9, damping / 5);
      if (Math.hypot(...step) < 1e-9) break;
    } else damping *= 10;
  }
  const columns = [0, 1].map((k) => solve(now.normal, [k === 0 ? 1 : 0, k === 1 ? 1 : 0, 0], 0));
  const [first, second] = columns;
  if (!first || !second) return undefined;
  const [a, b, c] = [first[0]!, (first[1]! + second[0]!) / 2, second[1]!];
  const largest = (a + c) / 2 + Math.hypot((a - c) / 2, b);
  if (!(largest > 0) || !Number.isFinite(largest)) return undefined;
  return { east: at[0]!, north: at[1]!, longer: at[2]!, sigma: Math.sqrt(largest), cost: now.cost };
}

/** Normal equations at a centre and a common lengthening. */
function sums(points: readonly ArcPoint[], options: ArcOptions, at: readonly number[]) {
  const { noise, radiusSigma, share, inside, sight, start } = options;
  const normal = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  const right = [0, 0, 0];
  let cost = 0;
  const add = (row: readonly number[], residual: number, weight: number) => {
    cost += weight * residual * residual;
    for (let i = 0; i < 3; i++) {
      right[i]! -= weight * row[i]! * residual;
      for (let j = 0; j < 3; j++) normal[3 * i + j]! += weight * row[i]! * row[j]!;
    }
  };
  for (const { east, north, radius } of points) {
    const de = at[0]! - east;
    const dn = at[1]! - north;
    const distance = Math.max(1e-9, Math.hypot(de, dn));
    const residual = distance - radius - at[2]!;
    const far = Math.abs(residual) / noise;
    const weight =
      residual < 0
        ? 1 / (1 + (residual / inside) ** 2)
        : Number.isFinite(inside)
          ? Math.min(1, 1.345 / far)
          : 1;
    add([de / distance, dn / distance, -1], residual, weight / (noise * noise * share));
  }
  if (Number.isFinite(radiusSigma)) add([0, 0, 1], at[2]!, 1 / (radiusSigma * radiusSigma));
  if (sight) {
    const { towards, across } = sight;
    const off = (at[0]! - start.east) * towards.north - (at[1]! - start.north) * towards.east;
    add([towards.north, -towards.east, 0], off, 1 / (across * across));
  }
  return { normal, right, cost };
}

/** Solves the 3 × 3 system by Cramer's rule; undefined when it is singular. */
function solve(normal: readonly number[], right: readonly number[], damping: number): number[] | undefined {
  const m = normal.map((value, i) => (i % 4 === 0 ? value * (1 + damping) : value));
  const det = (n: readonly number[]) =>
    n[0]! * (n[4]! * n[8]! - n[5]! * n[7]!) -
    n[1]! * (n[3]! * n[8]! - n[5]! * n[6]!) +
    n[2]! * (n[3]! * n[7]! - n[4]! * n[6]!);
  const whole = det(m);
  if (!(Math.abs(whole) > 1e-12 * Math.max(1e-300, m[0]! * m[4]! * m[8]!))) return undefined;
  return [0, 1, 2].map(
    (k) => det(m.map((value, i) => (i % 3 === k ? right[Math.floor(i / 3)]! : value))) / whole,
  );
}
