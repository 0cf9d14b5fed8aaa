/** Conversions at the edge: everything inside is SI. */

/** m/s in one knot: 1852 m an hour (exact). */
export const KNOT = 1852 / 3600;
/** Metres in one international foot (exact). */
export const FOOT = 0.3048;
/** Metres in one fathom (exact, six feet). */
export const FATHOM = 1.8288;
/** m/s in one km/h. */
export const KILOMETRE_PER_HOUR = 1 / 3.6;
/** m/s in one statute mile an hour (exact). */
export const MILE_PER_HOUR = 0.44704;

export const fromKnots = (knots: number): number => knots * KNOT;
export const toKnots = (metresPerSecond: number): number => metresPerSecond / KNOT;
