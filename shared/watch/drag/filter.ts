/**
 * Where the anchor would lie if it held: a Kalman filter over what makes the boat lie further out than her cable should let her.
 *
 *   excess = u · (offset + slow) + gain · load + reach + noise
 *
 * `excess` is the roller's distance from the mark less the computed reach, `u` the unit vector from the mark to the roller. What the
 * sum is made of:
 * - `offset` (east, north): anchor from its mark: error of the mark, set-back while digging in. Constant while it holds.
 * - `slow` (east, north): GNSS error that is correlated over minutes to hours: a Gauss-Markov process. This is why averaging long
 *   does not tell the anchor's place better than a metre or two.
 * - `load`: error of the computed load, as its logarithm, times `gain` = d reach / d ln load: a Gauss-Markov process.
 * - `reach`: what this boat's own reach differs from the computed one (length of cable, bottom, depth): constant.
 *
 * Plain data; one step costs a fixed few hundred multiplications. R. E. Kalman, J. Basic Eng. 82 (1960); members that are considered
 * but not learnt: S. F. Schmidt, Adv. Control Systems 3 (1966).
 */
export interface AnchorFilter {
  /** Mean of the six members, metres (the load's: natural logarithm). */
  x: number[];
  /** Covariance, row by row. */
  p: number[];
  /** UNIX seconds of the last prediction. */
  at: number;
}

const N = 6;
const OFFSET = 0;
const SLOW = 2;
const LOAD = 4;
const REACH = 5;
/** What is constant while the anchor holds. */
const CONSTANT = [OFFSET, OFFSET + 1, REACH];

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
  const { p } = filter;
  const slow = model.slowSigma ** 2;
  for (const axis of [0, 1]) {
    const offset = OFFSET + axis;
    const error = SLOW + axis;
    set(p, offset, offset, Math.max(markSigma ** 2, sameReceiver ? slow : 0) + model.setBackSigma ** 2);
    set(p, error, error, slow);
    if (sameReceiver) set(p, offset, error, -slow);
  }
  set(p, LOAD, LOAD, model.loadSigma ** 2);
  set(p, REACH, REACH, model.reachSigma ** 2);
  return filter;
}

/** Lets time pass until `at`. */
export function predict(filter: AnchorFilter, at: number, model: FilterModel): void {
  const dt = at - filter.at;
  if (dt <= 0) return;
  filter.at = at;
  fade(filter, SLOW, Math.exp(-dt / model.slowTime), model.slowSigma);
  fade(filter, SLOW + 1, Math.exp(-dt / model.slowTime), model.slowSigma);
  fade(filter, LOAD, Math.exp(-dt / model.loadTime), model.loadSigma);
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
  return project(filter, row(regard));
}

/** The same from what is constant alone: where a held anchor lets her lie when receiver and load are free of error. */
export function reference(
  filter: AnchorFilter,
  { east, north }: Regard,
): { excess: number; variance: number } {
  return project(filter, [east, north, 0, 0, 0, 1]);
}

/** Where the anchor lies from its mark while it holds: mean and covariance, metres. */
export function lying({ x, p }: AnchorFilter): {
  east: number;
  north: number;
  varEast: number;
  varNorth: number;
  covariance: number;
} {
  return {
    east: x[OFFSET]!,
    north: x[OFFSET + 1]!,
    varEast: p[OFFSET * N + OFFSET]!,
    varNorth: p[(OFFSET + 1) * N + OFFSET + 1]!,
    covariance: p[OFFSET * N + OFFSET + 1]!,
  };
}

/**
 * Takes in one excess with the variance of its noise. `learn` false: only what changes anyway (slow, load) is learnt from it; the
 * constant members are considered with their variance and left alone.
 */
export function correct(
  filter: AnchorFilter,
  regard: Regard,
  excess: number,
  noise: number,
  learn = true,
): void {
  const { x, p } = filter;
  const h = row(regard);
  const ph = times(p, h);
  const innovation = excess - dot(h, x);
  const s = dot(h, ph) + noise;
  const k = ph.map((value, i) => (learn || !CONSTANT.includes(i) ? value / s : 0));
  for (let i = 0; i < N; i++) x[i]! += k[i]! * innovation;
  // P − K·hᵀP − P·h·Kᵀ + K·s·Kᵀ holds for any gain K (Joseph); with the full one it is P − K·s·Kᵀ.
  for (let i = 0; i < N; i++)
    for (let j = i; j < N; j++)
      set(p, i, j, p[i * N + j]! - k[i]! * ph[j]! - ph[i]! * k[j]! + k[i]! * s * k[j]!);
}

/** The slow error is another one from now on: another receiver, or the same after it was lost or doubtful. */
export function shakeSlow(filter: AnchorFilter, model: FilterModel): void {
  fade(filter, SLOW, 0, model.slowSigma);
  fade(filter, SLOW + 1, 0, model.slowSigma);
}

/** The same anchor told from another mark, from which the old one lies `east` and `north` metres. */
export function shiftOffset({ x }: AnchorFilter, east: number, north: number): void {
  x[OFFSET]! += east;
  x[OFFSET + 1]! += north;
}

/** The anchor may still move by itself, digging in: its place is in no direction known better than `sigma`, m. */
export function loosen({ p }: AnchorFilter, sigma: number): void {
  const [east, both, north] = [OFFSET * N + OFFSET, OFFSET * N + OFFSET + 1, (OFFSET + 1) * N + OFFSET + 1];
  const half = (p[east]! - p[north]!) / 2;
  const least = (p[east]! + p[north]!) / 2 - Math.hypot(half, p[both]!);
  const more = sigma ** 2 - least;
  if (more <= 0) return;
  // The principal axis in which it is known best.
  const axis = Math.atan2(p[both]!, half) / 2 + Math.PI / 2;
  const [along, across] = [Math.cos(axis), Math.sin(axis)];
  p[east]! += more * along * along;
  p[north]! += more * across * across;
  set(p, OFFSET, OFFSET + 1, p[both]! + more * along * across);
}

/** The receiver has thrown its position; the step is taken out of the readings, known but for this variance, m². */
export function shakeBy({ p }: AnchorFilter, variance: number): void {
  p[SLOW * N + SLOW]! += variance;
  p[(SLOW + 1) * N + SLOW + 1]! += variance;
}

/** Cable was veered or heaved in, so the reach's own error starts again. */
export function forgetReach({ x, p }: AnchorFilter, model: FilterModel): void {
  for (let i = 0; i < N; i++) set(p, REACH, i, 0);
  set(p, REACH, REACH, model.reachSigma ** 2);
  x[REACH] = 0;
}

function project({ x, p }: AnchorFilter, h: number[]): { excess: number; variance: number } {
  return { excess: dot(h, x), variance: dot(h, times(p, h)) };
}

const row = ({ east, north, gain }: Regard): number[] => [east, north, east, north, gain, 1];

function set(p: number[], i: number, j: number, value: number): void {
  // A stored state knows no −0.
  const plain = value + 0;
  p[i * N + j] = plain;
  p[j * N + i] = plain;
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
