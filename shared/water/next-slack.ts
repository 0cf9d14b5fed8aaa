import { direction } from '../quantities/angle.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { fittedStream, type RecordFit, type Unfitted } from './stream-record.ts';
import { M2_PERIOD } from './tide/speeds.ts';

/** Slack water to come: when (UNIX seconds), how long weaker than asked (s), and where the stream sets afterwards (degrees true). */
export type NextSlack =
  | {
      state: 'slack';
      at: Estimate;
      from: number;
      until: number;
      duration: number;
      setsAfterwards: number;
    }
  | Unfitted;

/** How far ahead slack is looked for: a tide and a bit, seconds. */
const AHEAD = 13 * 3600;
const STEP = 300;
/** Longest that one slack is followed to each side, seconds. */
const SIDE = 3 * 3600;
/**
 * A fit to less than a fortnight runs away from the true tide, since M2 stands for M2 and S2 together, whose phase wanders by
 * about half a degree an hour between springs and neaps: one sigma in seconds for each hour from the middle of the record.
 */
const WANDER = (0.5 / 28.98) * 3600;
const FORTNIGHT = 14.77 * 86_400;
/**
 * A record of less than a day does not tell the daily inequality: a diurnal stream of an eighth of the semidiurnal one (common
 * practice, no source) shifts slack by asin(1/8) of M2's phase, one sigma in seconds.
 */
const INEQUALITY = (Math.asin(1 / 8) / (2 * Math.PI)) * M2_PERIOD;
/** A time less sure than this is not told as a time, seconds. */
const LEAST_SURE = 3600;

/** The next slack after a time, by a fitted record; `below` m/s counts as slack. */
export function nextSlack(fit: RecordFit, after: number, below = 0.13): NextSlack {
  const start = fittedStream(fit, after).value;
  let low = after;
  let lowValue = start;
  for (let high = after + STEP; high <= after + AHEAD; high += STEP) {
    const highValue = fittedStream(fit, high).value;
    if (lowValue !== 0 && Math.sign(highValue) !== Math.sign(lowValue)) {
      return slackAt(fit, crossing(fit, low, high), below);
    }
    low = high;
    lowValue = highValue;
  }
  const weakest = Math.abs(start) < below ? 'is too weak to turn' : 'keeps its direction';
  return { state: 'unknown', reason: `By the record so far the stream ${weakest} in the next 13 h.` };
}

function slackAt(fit: RecordFit, at: number, below: number): NextSlack {
  const { sigma, rate } = fittedStream(fit, at);
  const hours = Math.abs(at - (fit.from + fit.until) / 2) / 3600;
  const wander = fit.until - fit.from < FORTNIGHT ? WANDER * hours : 0;
  const inequality = fit.constituents.includes('K1') ? 0 : INEQUALITY;
  const sure = Math.hypot(sigma / Math.max(Math.abs(rate), 1e-9), wander, inequality);
  if (sure > LEAST_SURE) {
    const minutes = Math.round(sure / 60);
    return {
      state: 'unknown',
      reason: `By the record so far slack water is known only to ${minutes > 600 ? 'many hours' : `${minutes} min`}.`,
    };
  }
  const from = edge(fit, at, -1, below);
  const until = edge(fit, at, 1, below);
  const setsAfterwards = rate > 0 ? fit.axis : direction(fit.axis + 180);
  return {
    state: 'slack',
    at: { value: at, sigma: sure },
    from,
    until,
    duration: until - from,
    setsAfterwards,
  };
}

function crossing(fit: RecordFit, from: number, to: number): number {
  const sign = Math.sign(fittedStream(fit, from).value);
  let low = from;
  let high = to;
  for (let k = 0; k < 30; k++) {
    const middle = (low + high) / 2;
    if (Math.sign(fittedStream(fit, middle).value) === sign) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** When the stream gets as strong as `below` on one side of slack, to the second-ish. */
function edge(fit: RecordFit, at: number, side: 1 | -1, below: number): number {
  let inside = at;
  for (let k = 0; k < SIDE / 60; k++) {
    const next = inside + side * 60;
    if (Math.abs(fittedStream(fit, next).value) >= below) return next - side * 30;
    inside = next;
  }
  return inside;
}
