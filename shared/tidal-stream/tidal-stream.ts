import type { Answer } from '../events.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { towards } from '../quantities/vector.ts';
import { type NextSlack, nextSlack } from '../water/next-slack.ts';
import {
  fitStream,
  fittedStream,
  type RecordFit,
  type StreamSample,
  type Unfitted,
} from '../water/stream-record.ts';
import type { SlackTold } from './view.ts';

/** The stream as measured at this anchorage, and as told. Plain data. */
export interface TidalStreamState {
  samples: StreamSample[];
  fit?: RecordFit | Unfitted;
  next?: NextSlack;
  told?: SlackTold[];
}

export const createTidalStream = (): TidalStreamState => ({ samples: [] });

/** Measured streams are kept every ten minutes, for four days; the fit is made anew as often. Seconds. */
const EVERY = 600;
const KEPT = 576;
/** Slack: a quarter of a knot, m/s. */
export const SLACK = 0.13;
/** One sigma of a table's slack water at a place that is not its station, s (common practice, no source). */
const TABLE_SIGMA = 1200;
/** A measured and a told slack nearer than this are the same one, s. */
const SAME = 2.5 * 3600;
const MOST_TOLD = 60;

/** To be called at each whole second; `stream` as known now, if it is. Without a mark the record ends: elsewhere the stream is another. */
export function passTidalStream(
  state: TidalStreamState,
  at: number,
  anchored: boolean,
  stream: () => { set: number; drift: number } | undefined,
): void {
  if (!anchored) {
    if (state.samples.length > 0 || state.fit) {
      state.samples = [];
      delete state.fit;
      delete state.next;
    }
    return;
  }
  if (at % EVERY !== 0) return;
  const now = stream();
  if (now) {
    state.samples.push({ at, stream: towards(now.drift, now.set) });
    if (state.samples.length > KEPT) state.samples.shift();
  }
  state.fit = fitStream(state.samples);
  state.next = state.fit.state === 'fitted' ? nextSlack(state.fit, at, SLACK) : state.fit;
}

/** Takes slack waters from a table, or forgets them (null). */
export function tellSlacks(state: TidalStreamState, told: readonly SlackTold[] | null): Answer {
  if (told === null) {
    delete state.told;
    return { ok: true };
  }
  const refused = (why: string): Answer => ({ ok: false, problem: 'refused', why });
  if (told.length === 0 || told.length > MOST_TOLD)
    return refused(`From 1 to ${MOST_TOLD} slack waters can be told.`);
  const sorted = [...told].sort((a, b) => a.at - b.at);
  for (let i = 0; i < sorted.length; i++) {
    const { at, setsAfterwards } = sorted[i]!;
    if (!Number.isFinite(at)) return refused('A slack water has no time.');
    if (setsAfterwards !== undefined && !(setsAfterwards >= 0 && setsAfterwards <= 360))
      return refused('The direction a stream sets is from 0 to 360 degrees true.');
    if (i > 0 && at - sorted[i - 1]!.at < 3600)
      return refused('Two slack waters lie at least an hour apart.');
  }
  state.told = sorted;
  return { ok: true };
}

export interface Turn {
  at: Estimate;
  from: 'measured' | 'table' | 'both';
  setsAfterwards?: number;
  duration?: number;
}

/** The next slack after `at`: measured, told, or both put together by the inverse of their variances. */
export function nextTurn({ next, told }: TidalStreamState, at: number): Turn | { unknown: string } {
  const entry = told?.find((one) => one.at > at);
  const measured = next?.state === 'slack' && next.at.value > at ? next : undefined;
  if (entry && measured && Math.abs(entry.at - measured.at.value) <= SAME) {
    const [a, b] = [measured.at.sigma ** 2, TABLE_SIGMA ** 2];
    const both = {
      value: (measured.at.value * b + entry.at * a) / (a + b),
      sigma: Math.sqrt((a * b) / (a + b)),
    };
    return ofMeasured(measured, both, 'both');
  }
  if (measured && (!entry || measured.at.value < entry.at))
    return ofMeasured(measured, measured.at, 'measured');
  if (entry) {
    const { setsAfterwards } = entry;
    const turn: Turn = { at: { value: entry.at, sigma: TABLE_SIGMA }, from: 'table' };
    return setsAfterwards === undefined ? turn : { ...turn, setsAfterwards };
  }
  if (!next || next.state === 'slack') return { unknown: 'The stream has not been measured here yet.' };
  return { unknown: next.reason };
}

const ofMeasured = (
  { setsAfterwards, duration }: NextSlack & { state: 'slack' },
  at: Estimate,
  from: Turn['from'],
): Turn => ({ at, from, setsAfterwards, duration });

/** The stream to expect at a time, by the record: direction it sets and drift, m/s, with its sigma; undefined without a fit. */
export function expectedStream(
  { fit }: TidalStreamState,
  at: number,
): { set: number; drift: Estimate } | undefined {
  if (fit?.state !== 'fitted') return undefined;
  const { value, sigma } = fittedStream(fit, at);
  return { set: value >= 0 ? fit.axis : (fit.axis + 180) % 360, drift: { value: Math.abs(value), sigma } };
}
