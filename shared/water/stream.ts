import { radians } from '../quantities/angle.ts';
import type { Vector } from '../quantities/vector.ts';

/**
 * Stream at anchor from the log, by regression over the boat's sheer. The log tells only the part along the hull; over several
 * headings the part across becomes observable: V·u − ahead = C·u for every heading u, V the velocity over the ground and C the
 * stream. Most paddle wheels turn the same way ahead and astern, so sums are kept from which both readings of the sign can be made.
 */
export interface StreamState {
  /** Last observation, UNIX seconds; absent: none yet. */
  at?: number;
  /** The log has told a sign: it measures across too, or has shown sternway. */
  signed: boolean;
  /** Number of independent observations that the sums stand for. */
  weight: number;
  /** The same of readings of a wheel that stood still: it may be stuck below its least speed, or see water from astern. */
  still: number;
  /** Σ u over the log's rows: her mean heading. */
  headE: number;
  headN: number;
  /** Σ u·uᵀ over all rows. */
  ee: number;
  en: number;
  nn: number;
  /** Rows whose sign is beyond doubt: Σ u·y, Σ y². */
  knownE: number;
  knownN: number;
  knownSquare: number;
  /** Rows of an unsigned log: Σ u·v, Σ u·a, Σ v², Σ v·a, Σ a² with v = V·u and a the reading. */
  motionE: number;
  motionN: number;
  logE: number;
  logN: number;
  motionSquare: number;
  motionLog: number;
  logSquare: number;
}

export interface StreamObservation {
  /** Degrees true. */
  heading: number;
  /** Speed through the water by the log, m/s, ahead and (two-axis logs) to starboard. */
  ahead: number;
  athwart?: number;
  /** Boat over the ground, m/s. */
  velocity: Vector;
  /** UNIX seconds. */
  at: number;
}

/** Old observations fade with this time constant, seconds. */
export const FORGET = 600;
/** Observations nearer to each other than this are not independent, seconds (common practice for logs and GNSS speed). */
const INDEPENDENT = 5;
/** An unsigned log that shows less than this has a wheel that does not turn, m/s (0.1 kn). */
const STOPPED = 0.05;
/** A reading beyond this is no stream and no boat at anchor, m/s. */
const ABSURD = 8;

export const createStream = (): StreamState => ({
  signed: false,
  weight: 0,
  still: 0,
  headE: 0,
  headN: 0,
  ee: 0,
  en: 0,
  nn: 0,
  knownE: 0,
  knownN: 0,
  knownSquare: 0,
  motionE: 0,
  motionN: 0,
  logE: 0,
  logN: 0,
  motionSquare: 0,
  motionLog: 0,
  logSquare: 0,
});

/** Takes in one observation (changes the state). Values that are not numbers, absurd, or older than the last are left out: false. */
export function observeStream(state: StreamState, observation: StreamObservation): boolean {
  const { heading, ahead, athwart, velocity, at } = observation;
  const { east, north } = velocity;
  const sane =
    Number.isFinite(heading) &&
    Number.isFinite(at) &&
    [ahead, athwart ?? 0, east, north].every((speed) => Math.abs(speed) < ABSURD);
  const passed = state.at === undefined ? INDEPENDENT : at - state.at;
  if (!sane || !(passed > 0)) return false;
  fade(state, Math.exp(-passed / FORGET));
  state.at = at;
  const weight = Math.min(1, passed / INDEPENDENT);
  if (athwart !== undefined || ahead < 0) sign(state);
  if (!state.signed && ahead < STOPPED) {
    state.still += weight;
    return true;
  }
  state.weight += weight;
  const sine = Math.sin(radians(heading));
  const cosine = Math.cos(radians(heading));
  const along = east * sine + north * cosine;
  addRow(state, sine, cosine, weight);
  state.headE += weight * sine;
  state.headN += weight * cosine;
  if (state.signed) known(state, sine, cosine, along - ahead, weight);
  else unsigned(state, sine, cosine, along, ahead, weight);
  if (athwart !== undefined) {
    addRow(state, cosine, -sine, weight);
    known(state, cosine, -sine, east * cosine - north * sine - athwart, weight);
  }
  return true;
}

function fade(state: StreamState, by: number): void {
  for (const key of SUMS) state[key] *= by;
}

const SUMS = (Object.keys(createStream()) as (keyof StreamState)[]).filter(
  (key): key is Exclude<keyof StreamState, 'at' | 'signed'> => key !== 'at' && key !== 'signed',
);

/** From now on the log's sign is believed, and so are the readings before. */
function sign(state: StreamState): void {
  if (state.signed) return;
  state.signed = true;
  state.knownE += state.motionE - state.logE;
  state.knownN += state.motionN - state.logN;
  state.knownSquare += state.motionSquare - 2 * state.motionLog + state.logSquare;
  for (const key of UNSIGNED) state[key] = 0;
}

const UNSIGNED = ['motionE', 'motionN', 'logE', 'logN', 'motionSquare', 'motionLog', 'logSquare'] as const;

function addRow(state: StreamState, e: number, n: number, weight: number): void {
  state.ee += weight * e * e;
  state.en += weight * e * n;
  state.nn += weight * n * n;
}

function known(state: StreamState, e: number, n: number, y: number, weight: number): void {
  state.knownE += weight * e * y;
  state.knownN += weight * n * y;
  state.knownSquare += weight * y * y;
}

function unsigned(state: StreamState, e: number, n: number, v: number, a: number, weight: number): void {
  state.motionE += weight * e * v;
  state.motionN += weight * n * v;
  state.logE += weight * e * a;
  state.logN += weight * n * a;
  state.motionSquare += weight * v * v;
  state.motionLog += weight * v * a;
  state.logSquare += weight * a * a;
}
