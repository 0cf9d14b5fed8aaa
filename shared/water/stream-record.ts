import { degrees, direction, radians } from '../quantities/angle.ts';
import type { Estimate } from '../quantities/estimate.ts';
import type { Vector } from '../quantities/vector.ts';
import { addEquation, createNormal, dot, quadratic, solveNormal } from './least-squares.ts';
import { type ConstituentName, SPEEDS } from './tide/speeds.ts';

/** One measured stream: UNIX seconds, m/s east and north. */
export interface StreamSample {
  at: number;
  stream: Vector;
}

/** A tidal stream fitted to a record, along its main axis. Plain data. */
export interface RecordFit {
  state: 'fitted';
  from: number;
  until: number;
  /** Direction in which a positive stream sets, degrees true. */
  axis: number;
  constituents: ConstituentName[];
  /** Mean, then cosine and sine of each constituent since the middle of the record, m/s. */
  coefficients: number[];
  covariance: number[][];
  /** Standard deviation of the record about the fit, m/s. */
  residual: number;
}

export type Unfitted = { state: 'unknown'; reason: string };

const HOUR = 3600;
/** Least record: half a semidiurnal tide. */
const LEAST = 6.2 * HOUR;
/** Share of a cycle by which a constituent must differ from the mean and from each other one (Rayleigh; 0.92 lets a day separate M2
 * and K1, whose fit is sound then: condition number 1.5, seamanship-physics.md §5). */
const RAYLEIGH = 0.92;
/** In the order in which a growing record tells them apart; the first that it does not yet tell ends the list. */
const CANDIDATES: readonly ConstituentName[] = ['M2', 'K1', 'M4', 'O1', 'S2', 'N2'];
/** Measured streams nearer to each other than this share their errors, seconds. */
const CORRELATED = 600;
/** Share of the half hours of the record that must hold a sample. */
const COVERED = 0.6;
/** Across the axis there may be this share of the variance along it at most: else the stream rotates and has no slack. */
const ROTATES = 0.35;

/** Constituents that a record of this length (s) can tell apart, strongest first; none when it is too short. */
export function separable(length: number): ConstituentName[] {
  if (length < LEAST) return [];
  const chosen: ConstituentName[] = ['M2'];
  for (const name of CANDIDATES) {
    if (name === 'M2') continue;
    const apart = [0, ...chosen.map((other) => SPEEDS[other])];
    const cycles = apart.map((speed) => (Math.abs(SPEEDS[name] - speed) * length) / HOUR / 360);
    if (!cycles.every((each) => each >= RAYLEIGH)) break;
    chosen.push(name);
  }
  return chosen;
}

/**
 * Fits mean and tidal constituents to measured streams by least squares (Foreman's method without nodal terms, which a record
 * of days can't tell): a day and less M2 only, from a day on K1 and M4, further ones as Rayleigh's criterion lets them.
 */
export function fitStream(samples: readonly StreamSample[]): RecordFit | Unfitted {
  const sane = samples.filter(({ at, stream }) => Number.isFinite(at + stream.east + stream.north));
  if (sane.length < 2) return { state: 'unknown', reason: 'The stream has not been measured yet.' };
  const from = sane.reduce((least, { at }) => Math.min(least, at), Number.POSITIVE_INFINITY);
  const until = sane.reduce((most, { at }) => Math.max(most, at), Number.NEGATIVE_INFINITY);
  const constituents = separable(until - from);
  if (constituents.length === 0) {
    const hours = ((until - from) / HOUR).toFixed(1);
    return {
      state: 'unknown',
      reason: `The stream has been measured for ${hours} h; at least 6.2 h (half a tide) are needed.`,
    };
  }
  if (!covered(sane, from, until)) {
    return { state: 'unknown', reason: 'The record of the stream has too many gaps.' };
  }
  const main = mainAxis(sane);
  if (main.roundness > ROTATES) {
    return {
      state: 'unknown',
      reason: 'The stream turns round through all directions here and has no slack water.',
    };
  }
  const normal = createNormal(1 + 2 * constituents.length);
  const middle = (from + until) / 2;
  const { east, north } = main;
  for (const { at, stream } of sane) {
    addEquation(normal, row(constituents, at - middle), stream.east * east + stream.north * north);
  }
  const solved = solveNormal(normal);
  if (!solved) return { state: 'unknown', reason: 'The record of the stream is too uneven for a fit.' };
  const free = Math.max(1, normal.rows - normal.size);
  const variance = solved.residual / free;
  const independent = Math.max(2, Math.min(normal.rows, (until - from) / CORRELATED));
  const inflate = variance * (normal.rows / independent);
  return {
    state: 'fitted',
    from,
    until,
    axis: direction(degrees(Math.atan2(east, north))),
    constituents,
    coefficients: solved.solution,
    covariance: solved.inverse.map((line) => line.map((value) => value * inflate)),
    residual: Math.sqrt(variance),
  };
}

/** Stream along the axis of a fit (m/s, positive towards `axis`), its rate of change (m/s²), and the sigma of the speed. */
export function fittedStream(fit: RecordFit, at: number): Estimate & { rate: number } {
  const since = at - (fit.from + fit.until) / 2;
  const basis = row(fit.constituents, since);
  const slope = rateRow(fit.constituents, since);
  return {
    value: dot(basis, fit.coefficients),
    sigma: Math.sqrt(Math.max(0, quadratic(fit.covariance, basis))),
    rate: dot(slope, fit.coefficients),
  };
}

const perSecond = (name: ConstituentName): number => radians(SPEEDS[name]) / HOUR;

const row = (names: readonly ConstituentName[], since: number): number[] => [
  1,
  ...names.flatMap((name) => [Math.cos(perSecond(name) * since), Math.sin(perSecond(name) * since)]),
];

const rateRow = (names: readonly ConstituentName[], since: number): number[] => [
  0,
  ...names.flatMap((name) => {
    const speed = perSecond(name);
    return [-speed * Math.sin(speed * since), speed * Math.cos(speed * since)];
  }),
];

function covered(samples: readonly StreamSample[], from: number, until: number): boolean {
  const bins = Math.ceil((until - from) / (HOUR / 2));
  const filled = new Set(samples.map(({ at }) => Math.min(bins - 1, Math.floor((at - from) / (HOUR / 2)))));
  return filled.size >= COVERED * bins;
}

/** Direction of the stream's largest variation (about zero), as a unit vector, and variance across it over that along it. */
function mainAxis(samples: readonly StreamSample[]): Vector & { roundness: number } {
  let ee = 0;
  let en = 0;
  let nn = 0;
  for (const { stream } of samples) {
    ee += stream.east * stream.east;
    en += stream.east * stream.north;
    nn += stream.north * stream.north;
  }
  const angle = 0.5 * Math.atan2(2 * en, nn - ee);
  const middle = (ee + nn) / 2;
  const apart = Math.hypot((ee - nn) / 2, en);
  return {
    east: Math.sin(angle),
    north: Math.cos(angle),
    roundness: middle > 0 ? (middle - apart) / (middle + apart) : 1,
  };
}
