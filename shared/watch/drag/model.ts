import type { FilterModel } from './filter.ts';

/**
 * What the drag watch believes before it has seen anything. Marks as in seamanship-physics.md: [M] measured or from memory,
 * [P] common practice, no source.
 */
export const MODEL: FilterModel = {
  /** Set-back while digging in: 1–5 m in sand (seamanship-physics.md §10 [P]). */
  setBackSigma: 2.5,
  /** Slow GNSS error of a consumer receiver, per axis: nmea-0183.md §4 measured .5 to 2.2 m, 1/e time 30 min to 2 h [M]. */
  slowSigma: 1.5,
  slowTime: 2400,
  /** Load computed from wind and windage: ± 40 % and slowly changing, [P]. */
  loadSigma: 0.4,
  loadTime: 1800,
  /** Cable counted by eye, bottom not flat: [P]. */
  reachSigma: 1.2,
  /** How an anchor that drags would move: tuned on the bench (docs/drag.md), m²/s. */
  wander: 0.006,
};

/** Without wind the load is anybody's guess: ± a factor of three. */
export const UNKNOWN_LOAD_SIGMA = 1.1;

export const BLOCK = {
  /** A block of fixes gives one reading: the farthest of it, since the cable allows nearer and only forbids farther. Seconds. */
  length: 20,
  /** Sigma of that reading, metres: sheer and surge leave her short of, or stretch her beyond, the computed reach. */
  sigma: 0.7,
  /** Part of the error that comes with the load within a block (gusts), as its logarithm. */
  gust: 0.2,
} as const;

export const EVIDENCE = {
  /** Slow path, alarm and caution: moved by so many metres and so many sigmas along the pull; ends below the second figure. */
  alarm: { metres: 4, sigmas: 2.7, ends: 1.8 },
  caution: { metres: 3, sigmas: 2, ends: 1.3 },
  /** Fast path (`unconfirmed`: so many times the metres, while the receiver tells no velocity): farther than was to be expected by so many metres and sigmas, for seconds, while she moves outwards (m/s). */
  fast: { metres: 3.5, sigmas: 3.5, seconds: 7, speed: 0.25, fixes: 4, unconfirmed: 2 },
  /** Metres from which on an anchor counts as moved, for the probability that is shown: a fluke's length or two [P]. */
  moved: 2,
} as const;
