import type { Quantity } from './view.ts';

/**
 * Seconds after which the last value of a quantity is no longer shown as a number: a stale number is not a number. Our choice from
 * what the trade sends (fixes and headings at 1–10 Hz, wind and depth at 0.5–2 Hz, temperature now and then) and from IMO
 * A.1046(27): a loss of position integrity is to be told within 10 s.
 */
export const LIMITS: Record<Quantity, number> = {
  position: 10,
  motion: 5,
  heading: 5,
  wind: 10,
  depth: 10,
  'water-speed': 10,
  stream: 30,
  'water-temperature': 120,
};

/** Variation belongs to the place: within 6 h a boat sails 40 M, over which it changes by a degree or so (our choice, seconds). */
export const VARIATION_LIMIT = 6 * 3600;

/** What a receiver says of its own accuracy (HDOP, standard deviations) holds this long, seconds (our choice). */
export const ACCURACY_LIMIT = 10;

/** A source is silent after this many seconds, or after this many times its usual interval when that is longer (our choice). */
const SILENCE = 5;
const INTERVALS = 2.5;

/** Seconds without a value after which a source that usually gives one every `interval` seconds counts as silent; at most `limit`. */
export const silence = (interval: number, limit: number): number =>
  Math.max(SILENCE, Math.min(INTERVALS * interval, limit));
