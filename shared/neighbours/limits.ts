/** Every number by which neighbours are judged. Where no source is named it is our choice, from common practice. */
export const NEIGHBOURS = {
  /** They are looked at every so many seconds: nobody needs them sooner, and a night must be quick to live again. */
  every: 10,
  /** Circles farther apart than this do not touch, however both swing: the least distance is not sought, m. */
  apart: 100,
  /** Farther than this a neighbour is of no interest to an anchor watch, m. */
  farthest: 3000,
  /** As many as are kept; the nearest go first. */
  most: 200,
  /** Class B below 2 kn reports every 3 min, class A at rest too; under way every 2 to 30 s (ITU-R M.1371-5, annex 1 table 1). Two reports missed: s. */
  staleAtRest: 400,
  staleUnderWay: 100,
  /** Then she is no longer drawn, s. */
  gone: 1200,
  /** Below this a vessel that does not tell her status lies still; a boat that sheers on her cable moves as fast, m/s. */
  restSpeed: 0.6,
  /** How long she must, s. */
  restTime: 300,
  /** Her places are kept every so many seconds, so many of them: half an hour. */
  placeEvery: 30,
  placesKept: 60,
  /** Size of a small craft that does not tell it, m. */
  length: 12,
  beam: 4,
  /** Height of a roller above the water, as a share of length (common practice). */
  rollerOfLength: 0.1,
  /** Cable veered over height of the roller above the bottom, when nobody tells: small craft on chain, and ships (common practice, no source). */
  scope: { small: 5, ship: 6 },
  scopeSigma: 0.25,
  shipLength: 25,
  /** The heading of a boat at anchor is off the line to her anchor by about this while she sheers, degrees. */
  lieSigma: 25,
  /** Clear water less than this to a vessel at rest: warning, m; ended when so much farther. */
  near: 8,
  nearEnds: 6,
  /** A vessel under way that will pass nearer than this, m, within so many seconds, faster than this, m/s. */
  passing: { distance: 25, within: 240, speed: 0.8 },
  /** Confirmed over s; ended after s. */
  confirm: 10,
  end: 30,
  /** A neighbour drags: this much beyond her circle, m, and this share of its radius (her anchor is only guessed); moving at least so fast, m/s. */
  dragBeyond: 12,
  dragShare: 0.3,
  dragSpeed: { least: 0.08, most: 2.5 },
  /** … over s. */
  dragOver: 240,
  /** A dragging neighbour that reaches us within: alarm, s; else a warning when her way leads within so many metres of our hull. */
  reachesAlarm: 420,
  reachesWithin: 40,
} as const;
