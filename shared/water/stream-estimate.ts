import { degrees } from '../quantities/angle.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { directionOf } from '../quantities/vector.ts';
import type { StreamState } from './stream.ts';

/** What is known of the stream: set (degrees true) and drift (m/s), or in words why it is not. */
export type StreamEstimate = { set: Estimate; drift: Estimate } | { unknown: string };

/** Seconds without a reading after which an estimate is not given any more. */
const STALE = 120;
/** Independent observations needed (a minute of readings). */
const ENOUGH = 12;
/** Least noise of one observation, m/s: a log that shows tenths of a knot, GNSS speed. */
const LEAST_NOISE = 0.05;
/** Beyond this the part of the stream across her is not known, m/s. */
const UNOBSERVED = 0.25;
/** Errors that more readings do not take away (common practice): zero and scale of the log, its alignment with the compass. */
const ZERO = 0.06;
const SCALE = 0.08;
const ALIGNMENT = 4;
/** Standard deviation of a direction of which nothing is known, degrees. */
const UNKNOWN_ANGLE = 104;
/** Probability, before any evidence, that the stream comes from astern while the log can't tell: boats lie to streams from ahead. */
const ASTERN = 0.1;
const MOST_EVIDENCE = 50;

/**
 * Set and drift from the readings so far. Unknown when there are too few, when she has kept one heading (then the words tell the
 * part along her), or when the log does not tell ahead from astern. The sigma of the set includes the chance that she makes
 * sternway through the water on a log that can't show it.
 */
export function streamEstimate(state: StreamState, at: number): StreamEstimate {
  const { weight } = state;
  if (state.at === undefined) return { unknown: 'No reading of the log yet.' };
  const age = at - state.at;
  if (age > STALE) return { unknown: `No reading of the log for ${Math.round(age)} s.` };
  if (weight < ENOUGH) return { unknown: 'Too few readings of the log yet.' };
  const ahead = solve(state, 1);
  const astern = solve(state, -1);
  const chance = chanceOfAstern(state, ahead.rest, astern.rest);
  const [best, doubt] = chance > 0.5 ? [astern, 1 - chance] : [ahead, chance];
  if (doubt > 0.3) {
    return {
      unknown: 'The log turns the same way ahead and astern, and she moves too little to tell which it is.',
    };
  }
  if (best.across > UNOBSERVED) {
    const along = best.along.drift;
    return {
      unknown: `She has kept her heading, so only the stream along her is measured: ${Math.abs(along).toFixed(1)} m/s from ${along < 0 ? 'ahead' : 'astern'}, give or take ${best.along.sigma.toFixed(1)}. When she sheers, the rest shows.`,
    };
  }
  const drift = Math.hypot(best.east, best.north);
  const driftSigma = Math.hypot(best.within(best.east, best.north), ZERO, SCALE * drift);
  const acrossSigma = Math.hypot(best.within(-best.north, best.east), ZERO);
  const angle = Math.hypot(degrees(Math.atan2(acrossSigma, drift)), ALIGNMENT, Math.sqrt(doubt) * 180);
  return {
    set: { value: directionOf(best), sigma: Math.min(UNKNOWN_ANGLE, angle) },
    drift: { value: drift, sigma: driftSigma },
  };
}

interface Solved {
  east: number;
  north: number;
  /** Sum of squares that the stream does not explain. */
  rest: number;
  /** Sigma of the worst known direction, m/s. */
  across: number;
  /** Stream along the mean heading (positive: towards it), m/s. */
  along: { drift: number; sigma: number };
  /** Sigma of the stream in a direction, m/s. */
  within(east: number, north: number): number;
}

/** Least squares for the log read as it stands (sign 1) or as sternway (−1). */
function solve(state: StreamState, sign: 1 | -1): Solved {
  // A trace of a prior (streams beyond 3 m/s are rare) keeps the matrix regular when she has one heading only.
  const prior = (LEAST_NOISE / 3) ** 2;
  const ee = state.ee + prior;
  const nn = state.nn + prior;
  const { en } = state;
  const be = state.knownE + state.motionE - sign * state.logE;
  const bn = state.knownN + state.motionN - sign * state.logN;
  const square = state.knownSquare + state.motionSquare - 2 * sign * state.motionLog + state.logSquare;
  const determinant = ee * nn - en * en;
  const east = (nn * be - en * bn) / determinant;
  const north = (ee * bn - en * be) / determinant;
  const rest = Math.max(square - east * be - north * bn, 0);
  const noise = Math.max(rest / Math.max(state.weight - 2, 1), LEAST_NOISE ** 2);
  const middle = (ee + nn) / 2;
  const apart = Math.hypot((ee - nn) / 2, en);
  const within = (e: number, n: number): number => {
    const length = Math.hypot(e, n) || 1;
    const variance = (nn * e * e - 2 * en * e * n + ee * n * n) / (determinant * length * length);
    return Math.sqrt(noise * Math.max(variance, 0));
  };
  // The mean heading lies along the larger eigenvector; its sense is that of the sum of her headings.
  const axis = 0.5 * Math.atan2(2 * en, nn - ee);
  const sense = Math.sign(state.headE * Math.sin(axis) + state.headN * Math.cos(axis)) || 1;
  const ue = sense * Math.sin(axis);
  const un = sense * Math.cos(axis);
  return {
    east,
    north,
    rest,
    across: Math.sqrt(noise / Math.max(middle - apart, 1e-12)),
    along: { drift: east * ue + north * un, sigma: Math.hypot(within(ue, un), ZERO) },
    within,
  };
}

/** Bayes: how likely the readings are sternway, from how much worse the one reading of the sign fits than the other. */
function chanceOfAstern(state: StreamState, ahead: number, astern: number): number {
  if (state.signed) return 0;
  const floor = state.weight * LEAST_NOISE ** 2;
  const evidence = (Math.min(state.weight, MOST_EVIDENCE) / 2) * Math.log((astern + floor) / (ahead + floor));
  const odds = (ASTERN / (1 - ASTERN)) * Math.exp(-Math.max(-30, Math.min(30, evidence)));
  return odds / (1 + odds);
}
