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
  slowTime: 3600,
  /** Load computed from wind and windage: ± 50 % and slowly changing, [P]. */
  loadSigma: 0.5,
  loadTime: 1200,
  /** Cable counted by eye, bottom not flat: [P]. */
  reachSigma: 1,
};

/**
 * So many seconds after the mark the anchor may still be digging in, and so far from where it was let go (m, sigma per axis): 1–5 m
 * in sand, more in mud (seamanship-physics.md §10 [P]). Until then no metres within that are held against it.
 */
export const DIGGING_IN = { seconds: 600, sigma: 3 } as const;

/** Moving the mark to where the anchor dug in is offered for so many seconds, from so many metres and sigmas on. [P] */
export const OFFER = { until: 3 * 3600, metres: 2.5, sigmas: 1.5 } as const;

/**
 * Cable that nobody has told: supposed after so many seconds and minutes heard, by the farthest minute but `passedOver`; at most so
 * much longer than she lies away, m. She may have lain slack or crooked meanwhile: sigma, m. [P]
 */
export const SUPPOSED = { seconds: 900, minutes: 10, passedOver: 1, most: 100, sigma: 4 } as const;

/** Depth that is assumed where none was ever heard, metres; it matters little: the reach changes by h/R of it. */
export const DEPTH_UNHEARD = 6;
/** Wind that is assumed while none is heard, m/s; the filter then holds the load for very uncertain. */
export const WIND_UNHEARD = 6;

/** Without wind the load is anybody's guess: ± a factor of three. */
export const UNKNOWN_LOAD_SIGMA = 1.1;

/** Wind (m/s) whose pull sheer, swell and an unmeasured stream give even in a calm: the reach is never computed for less. Bench. */
export const LEAST_WIND = 4.5;

export const BLOCK = {
  /** A block of fixes gives one reading: the farthest of it, since the cable allows nearer and only forbids farther. Seconds. */
  length: 20,
  /** Sigma of that reading, metres: sheer and surge leave her short of, or stretch her beyond, the computed reach. Bench. */
  sigma: 0.8,
  /** Part of what is left from the computed reach to the taut cable that she may lie farther out by (a wrong load, chain that has straightened). Bench. */
  slack: 0.6,
} as const;

export const ENVELOPE = {
  /** Of so many blocks the farthest few are taken: she sheers with periods of some minutes (seamanship-physics.md §10). */
  blocks: 6,
  farthest: 3,
  /** Sigma of what they tell, metres, and how many sigmas short is slack cable, from which nothing is learnt. Bench. */
  sigma: 0.6,
  short: 2,
  /** From a wind of `fresh` m/s on she lies as far as the cable lets her; in less, falling short counts less and less. Bench. */
  slack: { fresh: 10, most: 5 },
} as const;

/** What is learnt of the receiver's slow error: bounds of its variance against the supposed one, readings that the supposition is worth, and memory. */
export const SCATTER = { least: 0.8, most: 2, prior: 40, memory: 160 };

export const RECEIVER = {
  /** A position that has moved more in a block than the receiver's own velocity says was thrown, not sailed: metres at least, and times what is usual for this receiver. */
  thrown: 0.9,
  times: 4,
  /** What is usual before anything is known, m, and blocks of memory. */
  usual: 0.4,
  blocks: 60,
  /** Thrown by this much (m) it is unsteady, and nothing is raised for so many seconds. */
  unsteady: 6,
  calm: 240,
  /** A doubt shorter than this (s) leaves what is known of the slow error; one jump alone makes a position doubtful for a minute. */
  shortDoubt: 180,
  /** Without a velocity: root of the mean square of the speed from fix to fix, m/s, over so many seconds, that makes it unsteady. Bench. */
  pace: 2,
  paceTime: 10,
  most: 1.2,
  /** How well the size of a thrown step is known, as a part of it. */
  doubt: 0.3,
  /** White error of the velocity, m/s, over a second; of the position, m; speed that a receiver may conceal when it tells no course, m/s. */
  speedSigma: 0.05,
  fast: 0.15,
  dumbSpeed: 0.03,
  /** No velocity is better than this, m/s; seconds over which its noise is taken, and times the usual square that one wild fix counts at most. */
  leastSpeed: 0.02,
  /** A speed that is more than a receiver's nought, m/s. */
  tells: 0.03,
  jitterTime: 120,
  wild: 9,
  /** At most so much (m) of a slow disagreement counts as the receiver's error: a damped velocity must not hide a creeping anchor. */
  drift: 2.5,
} as const;

export const EVIDENCE = {
  /** From so many sigmas on, nothing constant is learnt: it may be the anchor. */
  freeze: 2.2,
  /** Raised beyond so many sigmas and metres, ended below `ends` sigmas. Bench. */
  alarm: { sigmas: 3.6, metres: 5, ends: 2 },
  caution: { sigmas: 2.8, metres: 4, ends: 1.5 },
  /** Without a velocity as witness it takes so many times the sigmas. Bench. */
  blind: 1.25,
  /**
   * Fast path: farther than the taut cable allows by so many metres and sigmas, for seconds and fixes, while by the receiver's own
   * velocity the roller has gone outwards `sailed` metres in the last `window` seconds and goes on (`speed`, m/s, over the `lately` last seconds). Without a velocity:
   * `unconfirmed` times the metres for `longer` seconds.
   */
  fast: {
    metres: 2.5,
    sigmas: 2.6,
    seconds: 4,
    fixes: 4,
    window: 45,
    sailed: 3.5,
    speed: 0.12,
    lately: 6,
    unconfirmed: 2.4,
    longer: 45,
  },
} as const;

/** A mark from which she lies farther than her reach by so many metres, or sigmas of the mark, does not fit the cable [P]. */
export const FIT = { metres: 25, sigmas: 5 } as const;
