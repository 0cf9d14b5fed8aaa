import { direction } from '../quantities/angle.ts';
import { KILOMETRE_PER_HOUR, KNOT } from '../quantities/units.ts';
import type { Fields } from './fields.ts';

/** m/s; a vessel faster than this is a damaged number. The water speed record is 142 m/s (317.6 mph, Warby 1978) [from memory]. */
const VESSEL_SPEED_LIMIT = 150;
/** Height and depth that no sea exceeds, metres: Challenger Deep, 10 935 m [from memory]. */
export const DEPTH_LIMIT = 11_000;

/** A direction, 0 ≤ d < 360; 360 is north. */
export function bearing(fields: Fields, i: number, what: string): number | undefined {
  const angle = fields.number(i, 0, 360, what);
  return angle === undefined ? undefined : direction(angle);
}

/** A direction with its reference, `T` or `M`, in the next field. */
export function bearingOf(fields: Fields, i: number, reference: 'T' | 'M', what: string): number | undefined {
  const angle = fields.measure(i, reference, 0, 360, what);
  return angle === undefined ? undefined : direction(angle);
}

/** A vessel's speed without unit letter, sent in knots, as m/s; `low` is 0 or the same limit astern. */
export function knots(fields: Fields, i: number, what: string, astern = false): number | undefined {
  const limit = VESSEL_SPEED_LIMIT / KNOT;
  const value = fields.number(i, astern ? -limit : 0, limit, what);
  return value === undefined ? undefined : value * KNOT;
}

/** A vessel's speed sent twice, `x,N,y,K`, as m/s: the knots, or the km/h when only they are there. */
export function knotsOrKmh(fields: Fields, i: number, what: string): number | undefined {
  const inKnots = fields.measure(i, 'N', 0, VESSEL_SPEED_LIMIT / KNOT, what);
  const inKmh = fields.measure(i + 2, 'K', 0, VESSEL_SPEED_LIMIT / KILOMETRE_PER_HOUR, what);
  if (inKnots !== undefined) return inKnots * KNOT;
  return inKmh === undefined ? undefined : inKmh * KILOMETRE_PER_HOUR;
}
