/**
 * Where the anchor is now: a Kalman filter over what makes the boat lie further out than her cable should let her.
 *
 *   excess = u · (offset + moved + slow) + gain · load + reach + noise
 *
 * `excess` is the roller's distance from the mark less the computed reach, `u` the unit vector from the mark to the roller. What the
 * sum is made of:
 * - `offset` (east, north): anchor at the start of the watch from its mark: error of the mark, set-back while digging in. Constant.
 * - `moved` (east, north): what the anchor has moved since: a random walk, zero at the start.
 * - `slow` (east, north): GNSS error that is correlated over minutes to hours: a Gauss-Markov process. This is why averaging long
 *   does not make the anchor's place better than a metre or two, and why `moved` keeps its sigma.
 * - `load`: error of the computed load, as its logarithm, times `gain` = d reach / d ln load: a Gauss-Markov process.
 * - `reach`: what this boat's own reach differs from the computed one (length of cable, bottom, depth): constant.
 *
 * Plain data; one step costs a fixed few hundred multiplications. R. E. Kalman, J. Basic Eng. 82 (1960).
 */
export interface AnchorFilter {
  /** Mean of the eight members, metres (the load's: natural logarithm). */
  x: number[];
  /** Covariance, row by row. */
  p: number[];
  /** UNIX seconds of the last prediction. */
  at: number;
}

const N = 8;
const OFFSET = 0;
const MOVED = 2;
const SLOW = 4;
const LOAD = 6;
const REACH = 7;

/** Sigmas and times of the model; each is explained where its value stands (model.ts). */
export interface FilterModel {
  setBackSigma: number;
  slowSigma: number;
  slowTime: number;
  loadSigma: number;
  loadTime: number;
  reachSigma: number;
}

/** A watch that begins at `at`. A mark taken from the receiver itself (`sameReceiver`) shares the slow error of that moment. */
export function createFilter(
  at: number,
  markSigma: number,
  sameReceiver: boolean,
  model: FilterModel,
): AnchorFilter {
  const filter: AnchorFilter = { x: new Array(N).fill(0), p: new Array(N * N).fill(0), at };
  const slow = model.slowSigma ** 2;
  for (const axis of [0, 1]) {
    const offset = OFFSET + axis;
    const error = SLOW + axis;
    set(
      filter.p,
      offset,
      offset,
      Math.max(markSigma ** 2, sameReceiver ? slow : 0) + model.setBackSigma ** 2,
    );
    set(filter.p, error, error, slow);
    if (sameReceiver) set(filter.p, offset, error, -slow);
  }
  set(filter.p, LOAD, LOAD, model.loadSigma ** 2);
  set(filter.p, REACH, REACH, model.reachSigma ** 2);
  return filter;
}

/** Lets time pass until `at`; `wander`: how the anchor is supposed to move, m² a second and axis (0: it holds). */
export function predict(filter: AnchorFilter, at: number, model: FilterModel, wander: number): void {
  const dt = at - filter.at;
  if (dt <= 0) return;
  filter.at = at;
  fade(filter, SLOW, Math.exp(-dt / model.slowTime), model.slowSigma);
  fade(filter, SLOW + 1, Math.exp(-dt / model.slowTime), model.slowSigma);
  fade(filter, LOAD, Math.exp(-dt / model.loadTime), model.loadSigma);
  filter.p[MOVED * N + MOVED]! += wander * dt;
  filter.p[(MOVED + 1) * N + MOVED + 1]! += wander * dt;
}

/** What an excess is made from at this moment. */
export interface Regard {
  /** Unit vector from the mark to the roller. */
  east: number;
  north: number;
  /** d reach / d ln load, metres. */
  gain: number;
}

/** The excess that is to be expected, and the variance of that expectation (without the reading's own noise). */
export function expected(filter: AnchorFilter, regard: Regard): { excess: number; variance: number } {
  const h = row(regard);
  const ph = times(filter.p, h);
  return { excess: dot(h, filter.x), variance: dot(h, ph) };
}

/** The slow error is another one from now on: another receiver, or the same after it was lost or doubtful. */
export function shakeSlow(filter: AnchorFilter, model: FilterModel): void {
  fade(filter, SLOW, 0, model.slowSigma);
  fade(filter, SLOW + 1, 0, model.slowSigma);
}

/** Takes in one excess with the variance of its noise; returns the innovation and its variance. */
export function correct(
  filter: AnchorFilter,
  regard: Regard,
  excess: number,
  noise: number,
): { innovation: number; variance: number } {
  const h = row(regard);
  const ph = times(filter.p, h);
  const innovation = excess - dot(h, filter.x);
  const s = dot(h, ph) + noise;
  for (let i = 0; i < N; i++) {
    filter.x[i]! += (ph[i]! * innovation) / s;
    for (let j = i; j < N; j++) set(filter.p, i, j, filter.p[i * N + j]! - (ph[i]! * ph[j]!) / s);
  }
  return { innovation, variance: s };
}

/** What the anchor has moved since the start of the watch: mean and covariance, metres. */
export interface Moved {
  east: number;
  north: number;
  varEast: number;
  varNorth: number;
  covariance: number;
}

export function moved({ x, p }: AnchorFilter): Moved {
  return {
    east: x[MOVED]!,
    north: x[MOVED + 1]!,
    varEast: p[MOVED * N + MOVED]!,
    varNorth: p[(MOVED + 1) * N + MOVED + 1]!,
    covariance: p[MOVED * N + MOVED + 1]!,
  };
}

/** Where the anchor lies from its mark by now (offset and movement): mean and larger sigma, metres. */
export function lying({ x, p }: AnchorFilter): { east: number; north: number; sigma: number } {
  const variance = (axis: number) =>
    p[(OFFSET + axis) * N + OFFSET + axis]! +
    p[(MOVED + axis) * N + MOVED + axis]! +
    2 * p[(OFFSET + axis) * N + MOVED + axis]!;
  return {
    east: x[OFFSET]! + x[MOVED]!,
    north: x[OFFSET + 1]! + x[MOVED + 1]!,
    sigma: Math.sqrt(Math.max(variance(0), variance(1), 0)),
  };
}

/** The receiver has thrown its position by so much (m) without moving: the slow error has made a step, known to `sigma`. */
export function throwSlow(filter: AnchorFilter, east: number, north: number, sigma: number): void {
  filter.x[SLOW]! += east;
  filter.x[SLOW + 1]! += north;
  filter.p[SLOW * N + SLOW]! += sigma * sigma;
  filter.p[(SLOW + 1) * N + SLOW + 1]! += sigma * sigma;
}

/** A filter that goes its own way from here. */
export const copyOf = ({ x, p, at }: AnchorFilter): AnchorFilter => ({ x: [...x], p: [...p], at });

/** All that lies between computed reach and mark is new: cable was veered or heaved in, so the reach's own error starts again. */
export function forgetReach(filter: AnchorFilter, model: FilterModel): void {
  for (let i = 0; i < N; i++) set(filter.p, REACH, i, 0);
  set(filter.p, REACH, REACH, model.reachSigma ** 2);
  filter.x[REACH] = 0;
}

function row({ east, north, gain }: Regard): number[] {
  return [east, north, east, north, east, north, gain, 1];
}

function set(p: number[], i: number, j: number, value: number): void {
  p[i * N + j] = value;
  p[j * N + i] = value;
}

function fade({ x, p }: AnchorFilter, member: number, keep: number, sigma: number): void {
  x[member]! *= keep;
  for (let i = 0; i < N; i++) if (i !== member) set(p, member, i, p[member * N + i]! * keep);
  p[member * N + member] = p[member * N + member]! * keep * keep + sigma * sigma * (1 - keep * keep);
}

function times(p: number[], h: number[]): number[] {
  const out = new Array<number>(N).fill(0);
  for (let i = 0; i < N; i++) {
    let sum = 0;
    for (let j = 0; j < N; j++) sum += p[i * N + j]! * h[j]!;
    out[i] = sum;
  }
  return out;
}

function dot(a: number[], b: number[]): number {
  let sum = 0;
  for (let i = 0; i < N; i++) sum += a[i]! * b[i]!;
  return sum;
}
