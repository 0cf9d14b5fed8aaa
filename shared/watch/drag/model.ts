import type { FilterModel } from './filter.ts';

/**
 * What the drag watch believes before it has seen anything. Marks as in seamanship-physics.md: [M] measured or from memory,
 * [P] common practice, no source; "bench": chosen on the project's own nights (docs/drag.md).
 */
export const MODEL: FilterModel = {
  /** Set-back while digging in: 1–5 m in sand (seamanship-physics.md §10 [P]). */
  setBackSigma: 2,
  /** Slow GNSS error of a consumer receiver, per axis: nmea-0183.md §4 measured .5 to 2.2 m, 1/e time 30 min to 2 h [M]. */
  slowSigma: 1.6,
  slowTime: 2400,
  /** Load computed from wind and windage: ± 50 % and slowly changing, [P]. */
  loadSigma: 0.5,
  loadTime: 1200,
  /** Cable counted by eye, bottom not flat: [P]. */
  reachSigma: 1,
};

/** Without wind the load is anybody's guess: ± a factor of three. */
export const UNKNOWN_LOAD_SIGMA = 1.1;

/** Wind (m/s) whose pull sheer, swell and an unmeasured stream give even in a calm: the reach is never computed for less. Bench. */
export const LEAST_WIND = 4.5;

export const BLOCK = {
  /** A block of fixes gives one reading: the farthest of it, since the cable allows nearer and only forbids farther. Seconds. */
  length: 20,
  /** Sigma of that reading, metres: sheer and surge leave her short of, or stretch her beyond, the computed reach. Bench. */
  sigma: 0.8,
  /** Part of the error that comes with the load within a block (gusts), as its logarithm. */
  gust: 0.3,
  /** A position that has moved this much (m) more in a block than the receiver's own velocity says was thrown, not sailed. */
  thrown: 1.2,
} as const;

export const BANK = {
  /** Ages (s) at which a suspicion "it has dragged since then" becomes mature and a younger one takes its place. */
  ages: [40, 80, 160, 320, 640, 1280, 2560],
  /** How an anchor that drags is supposed to move, m²/s: 5 m in 20 min. Bench. */
  wander: 0.02,
  /** An innovation of more than so many sigmas is not learnt by the hypothesis that she holds. */
  gate: 3.5,
  /** Bounds and blocks of memory for the scatter of this receiver on this boat against what was expected. */
  scatter: { least: 0.6, most: 3, blocks: 180 },
} as const;

export const EVIDENCE = {
  /** Slow path, alarm and caution: moved by so many metres, with so much log-likelihood for it; ends below the third figure. Bench. */
  alarm: { metres: 4, log: 9, ends: 5 },
  caution: { metres: 3, log: 5, ends: 2 },
  /** Fast path: farther than was to be expected by so many metres and sigmas, for seconds and fixes, while she moves outwards (m/s). `unconfirmed`: times the metres while the receiver tells no velocity. */
  fast: { metres: 3.5, sigmas: 4, seconds: 7, speed: 0.25, fixes: 4, unconfirmed: 2 },
  /** Metres from which on an anchor counts as moved, for the probability that is shown: a fluke's length or two [P]. */
  moved: 2,
} as const;
