import type { TimeObservation } from '../sentences/observation.ts';

/** UTC as the receiver tells it, against the engine's timeline. */
export interface TimeState {
  /** UTC minus the engine's timeline, seconds, and when it was last confirmed. */
  offset?: number;
  at?: number;
  /** UTC of the last sentence that carried a date, and when it came. */
  dated?: { utc: number; at: number };
  /** An offset that differs from `offset`, and how many samples in a row have agreed with it. */
  rival?: { offset: number; count: number } | undefined;
}

const DAY = 86_400;
const WEEK = 7 * DAY;
/** GPS weeks are counted modulo 1024; receivers that lose the count are off by whole cycles. */
const CYCLE = 1024 * WEEK;
/** Before 2001-09-09 a timeline is that of a computer that does not know the date, and no judge of a receiver's. */
const CLOCK_UNSET = 1e9;

/** A sample this far from the offset, seconds, is an outlier until so many in a row agree on it (our choice). */
const OUTLIER = 2;
const AGREEING = 5;
/** Samples scatter with the delay of the line: the offset follows slowly, seconds a sample at most. */
const FOLLOWING = 0.1;
const FASTEST = 0.05;
/** An offset that no sample has confirmed for so long is not told any more, seconds (our choice). */
const OFFSET_LIMIT = 60;

export const createTime = (): TimeState => ({});

/** Takes a time that is new (not a repetition); `at` is when it came. */
export function hearTime(state: TimeState, said: TimeObservation, at: number): void {
  const utc = utcOf(state, said, at);
  if (said.date !== undefined) state.dated = { utc, at };
  const sample = utc - at;
  const { offset } = state;
  if (offset === undefined) {
    state.offset = sample;
    state.at = at;
  } else if (Math.abs(sample - offset) <= OUTLIER) {
    state.offset = offset + Math.max(-FASTEST, Math.min(FASTEST, FOLLOWING * (sample - offset)));
    state.at = at;
    if (state.rival) state.rival = undefined;
  } else {
    hearOutlier(state, sample, at);
  }
}

function hearOutlier(state: TimeState, sample: number, at: number): void {
  const { rival } = state;
  if (!rival || Math.abs(sample - rival.offset) > OUTLIER) {
    state.rival = { offset: sample, count: 1 };
    return;
  }
  rival.count++;
  if (rival.count < AGREEING) return;
  state.offset = rival.offset;
  state.at = at;
  state.rival = undefined;
}

/**
 * UTC of a sentence, UNIX seconds. Without a date the day is the one that brings the time within 12 h of the last dated sentence,
 * else of the engine's timeline. A date is set right by whole cycles of 1024 weeks when that brings it nearer to the timeline.
 */
export function utcOf(state: TimeState, { timeOfDay, date }: TimeObservation, at: number): number {
  if (date !== undefined) return unroll(date + timeOfDay, at);
  const about = state.dated ? state.dated.utc + (at - state.dated.at) : at;
  const midnight = DAY * Math.floor(about / DAY);
  return midnight + timeOfDay + DAY * Math.round((about - midnight - timeOfDay) / DAY);
}

function unroll(utc: number, at: number): number {
  return at < CLOCK_UNSET ? utc : utc + CYCLE * Math.round((at - utc) / CYCLE);
}

/** UTC minus the timeline while a receiver tells the time. */
export const clockOffset = ({ offset, at: confirmed }: TimeState, at: number): number | undefined =>
  confirmed !== undefined && at - confirmed <= OFFSET_LIMIT ? offset : undefined;
