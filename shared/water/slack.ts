import { M2_PERIOD } from './tide/speeds.ts';

/**
 * How long (s) a stream is weaker than `below` about slack water, for a strength of `most` at mid-tide (same unit): near slack
 * v ≈ v_max·sin(2πt/T), so duration = T/π·asin(below/most) (NOAA tidal current tables, table 4A, which takes T = 12 h).
 * Undefined when the stream never gets that strong: it is slack all the time, or the numbers make no sense.
 */
export function slackDuration(most: number, below: number, period = M2_PERIOD): number | undefined {
  const share = below / most;
  if (!(share >= 0 && share < 1 && most > 0 && period > 0)) return undefined;
  return (period / Math.PI) * Math.asin(share);
}

/** Slack water from a tidal stream table: when (UNIX seconds), and from when until when the stream is weaker than asked. */
export interface Slack {
  at: number;
  from: number;
  until: number;
  duration: number;
}

/**
 * Slack by a table's entry: its time, and the strength of the stream before and after it (m/s). `below`: what counts as slack, m/s.
 * Undefined when either strength is not above it.
 */
export function slackByTable(
  entry: { at: number; strengthBefore: number; strengthAfter: number },
  below: number,
): Slack | undefined {
  const before = slackDuration(entry.strengthBefore, below);
  const after = slackDuration(entry.strengthAfter, below);
  if (before === undefined || after === undefined || !Number.isFinite(entry.at)) return undefined;
  return {
    at: entry.at,
    from: entry.at - before / 2,
    until: entry.at + after / 2,
    duration: (before + after) / 2,
  };
}
