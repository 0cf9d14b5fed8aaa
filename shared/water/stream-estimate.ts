import { degrees } from '../quantities/angle.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { directionOf, hypot } from '../quantities/vector.ts';
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
/** Share of readings of a wheel that stands still above which nothing is told; below, what wheels may miss (m/s at a share of 1). */
const STANDS = 0.4;
const STUCK = 0.25;
/** Standard deviation of a direction of which nothing is known, degrees. */
const UNKNOWN_ANGLE = 104;
/** Probability, before any evidence, that the stream comes from astern while the log can't tell: boats lie to streams from ahead. */
const ASTERN = 0.1;
const MOST_EVIDENCE = 100;
/** Least spread of speeds that a correlation is made from, m/s: their last digit. */
const QUANTUM = 0.01;
/** A trace of a prior (streams beyond 3 m/s are rare) keeps the matrix regular when she has one heading only. */
const PRIOR = (LEAST_NOISE / 3) ** 2;

/**
 * Set and drift from the readings so far. Unknown when there are too few, when she has kept one heading (then the words tell the
 * part along her), when the log's wheel stands still, or when the log does not tell ahead from astern. The sigma of the set includes the chance that she makes
 * sternway through the water on a log that can't show it.
 */
export function streamEstimate(state: StreamState, at: number): StreamEstimate {
  const { weight, still } = state;
  if (state.at === undefined) return { unknown: 'No reading of the log yet.' };
  const age = at - state.at;
  if (age > STALE) return { unknown: `No reading of the log for ${Math.round(age)} s.` };
  if (weight + still < ENOUGH) return { unknown: 'Too few readings of the log yet.' };
  const stopped = still / (weight + still);
  if (stopped > STANDS) {
    return {
      unknown: 'The log’s wheel stands still: there is little stream along her, or it comes from astern.',
    };
  }
  if (weight < ENOUGH) return { unknown: 'Too few readings of the log yet.' };
  const ahead = solve(state, 1);
  const astern = solve(state, -1);
  const chance = chanceOfAstern(state);
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
  const drift = hypot(best.east, best.north);
  const driftSigma = Math.hypot(best.within(best.east, best.north), ZERO, SCALE * drift, STUCK * stopped);
  const acrossSigma = hypot(best.within(-best.north, best.east), ZERO);
  const angle = Math.hypot(degrees(Math.atan2(acrossSigma, drift)), ALIGNMENT, Math.sqrt(doubt) * 180);
  return {
    set: { value: directionOf(best), sigma: Math.min(UNKNOWN_ANGLE, angle) },
    drift: { value: drift, sigma: driftSigma },
  };
}

interface Solved {
  east: number;
  north: number;
  /** Sigma of the worst known direction, m/s. */
  across: number;
  /** Stream along the mean heading (positive: towards it), m/s. */
  along: { drift: number; sigma: number };
  /** Sigma of the stream in a direction, m/s. */
  within(east: number, north: number): number;
}

/** Least squares for the log read as it stands (sign 1) or as sternway (−1). */
function solve(state: StreamState, sign: 1 | -1): Solved {
  const ee = state.ee + PRIOR;
  const nn = state.nn + PRIOR;
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
  const apart = hypot((ee - nn) / 2, en);
  const within = (e: number, n: number): number => {
    const length = hypot(e, n) || 1;
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
    across: Math.sqrt(noise / Math.max(middle - apart, 1e-12)),
    along: { drift: east * ue + north * un, sigma: hypot(within(ue, un), ZERO) },
    within,
  };
}

/**
 * How likely the readings are sternway. As she surges, her speed over the ground along the heading and a reading taken ahead go up
 * and down together, one taken astern against each other. Bayes on their correlation; a chance one (|z| < 2) counts as nothing.
 */
function chanceOfAstern(state: StreamState): number {
  if (state.signed) return 0;
  const motion = { e: state.motionE, n: state.motionN };
  const log = { e: state.logE, n: state.logN };
  const together = state.motionLog - explained(state, motion, log);
  const motionAlone = state.motionSquare - explained(state, motion, motion);
  const logAlone = state.logSquare - explained(state, log, log);
  const floor = state.weight * QUANTUM ** 2;
  const correlation = together / Math.sqrt(Math.max(motionAlone, floor) * Math.max(logAlone, floor));
  const z =
    Math.sqrt(Math.min(state.weight, MOST_EVIDENCE)) *
    Math.atanh(Math.max(-0.99, Math.min(0.99, correlation)));
  const evidence = Math.sign(z) * Math.min(30, Math.max(0, (z * z) / 2 - 2));
  const odds = (ASTERN / (1 - ASTERN)) * Math.exp(-evidence);
  return odds / (1 + odds);
}

/** The part of Σ p·q that a steady stream accounts for: pᵀ·(Σ u·uᵀ)⁻¹·q. */
function explained(state: StreamState, p: { e: number; n: number }, q: { e: number; n: number }): number {
  const ee = state.ee + PRIOR;
  const nn = state.nn + PRIOR;
  const { en } = state;
  return (nn * p.e * q.e - en * (p.e * q.n + p.n * q.e) + ee * p.n * q.n) / (ee * nn - en * en);
}
