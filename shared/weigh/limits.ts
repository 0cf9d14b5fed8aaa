import type { Hull } from '../settings.ts';

/**
 * Every number of the weighing monitor. Seconds, metres, m/s, degrees. Without a source named: our choice, from common practice of
 * the trade [P], made to be explained to the person at the helm.
 */

/** How long a condition must hold without a break before it is told, and be gone before it ends. */
export interface Rule {
  raise: number;
  clear: number;
}

export const RULES = {
  leadFoul: { raise: 3, clear: 5 },
  /** Before the cable is hove and she comes ahead. */
  leadFoulAtAnchor: { raise: 20, clear: 5 },
  cableTaut: { raise: 5, clear: 6 },
  /** Up and down the cable is taut by nature for a while: the bow's buoyancy breaks the anchor out. */
  cableTautUpAndDown: { raise: 15, clear: 4 },
  overrun: { raise: 3, clear: 5 },
  adrift: { raise: 3, clear: 10 },
  brokenOut: { raise: 4, clear: 0 },
  /** Stay and cable state change only when the new one has lasted. */
  stay: { raise: 3, clear: 0 },
  cable: { raise: 3, clear: 0 },
} as const satisfies Record<string, Rule>;

export const LEAD = {
  /** Aft of this the cable leads foul, early enough for a bearing that is 15° wrong. A catamaran's cable comes in between two bows and crosses one of them early. */
  limit: { monohull: 65, catamaran: 50, trimaran: 60 } satisfies Record<Hull, number>,
  hysteresis: 10,
  ahead: 30,
  bow: 75,
  abeam: 105,
  /** A direction less sure than this is not told. */
  leastSure: 40,
  /** A clock hour is 30° wide; what the foredeck pointed out counts for so long. */
  clockSigma: 10,
  clockDoubt: 10,
  foredeckHolds: 20,
} as const;

export const OUT = {
  counterSigma: 0.5,
  counterAge: 12,
  /** A counter that has run down by this much lately, seconds, shows that the windlass heaves. */
  counts: 0.05,
  counterHeaves: 7,
  /** What is painted on a chain, seen from above, in whole metres. */
  toldSigma: 1,
  veeredSigma: { least: 1, part: 0.03 },
  /** A windlass heaves 10 to 25 m a minute; when nobody has told its rate, by this part it may be wrong. */
  rate: 0.25,
  rateSigmaPart: 0.35,
  learntSigmaPart: 0.12,
  learnFrom: 8,
  slowest: 0.03,
  fastest: 0.8,
} as const;

export const HEIGHT = {
  sigma: 0.4,
  /** How old a depth may be, seconds: she moves slowly, and the tide too. */
  age: 600,
} as const;

/** Cable out over height of the roller: into the stay at `in`, out of it at `out`. Short stay: about one and a half (§9 [M]). */
export const STAY = {
  short: { in: 1.6, out: 1.85 },
  upAndDown: { in: 1.12, out: 1.3 },
  /** Cable that hangs clear of the bottom by this much: aweigh. */
  clear: 0.5,
} as const;

export const CABLE = {
  /** A state less sure than this changes nothing. */
  sure: 0.6,
  sureSlack: 0.8,
  sureTaut: 0.9,
  /** Slow error of a consumer receiver over some minutes, and what the load leaves open of the reach. */
  wander: 1.8,
  load: 0.6,
  /** Wind and stream that push farther apart than this leave her anywhere about her anchor: no reach to compare with. */
  together: 60,
  /** … unless the stream is weaker than this, m/s. */
  weak: 0.15,
  lyingStill: 0.12,
  underWay: 0.25,
  /** The offset is a mean over this long, and worth something after this long, seconds. */
  settle: 60,
  settled: 4,
} as const;

export const APPROACH = {
  /** Through the water; about one and a half knots, unless the crew chooses. */
  speed: 0.7,
  /** Closing speed per metre left, its bounds, and that of the last metres. */
  perMetre: 1 / 40,
  fastest: 0.5,
  slowest: 0.12,
  last: 0.08,
  /** Faster through the water than this nobody comes up a cable. */
  most: 1.6,
  mostLeeway: 35,
  nearEnd: 4,
  /** Measured drift through the water is a mean over about so many seconds. */
  drift: 15,
  /** Nearer than so many sigma the bearing is no guide, unless the foredeck points. */
  tooNear: 1.5,
  /** m/s of closing speed missing that ask for all of "ahead". */
  full: 0.35,
  gently: 0.12,
  /** With the bow farther off the course than this: bring it round first. */
  roundFirst: 60,
  engine: 0.5,
} as const;

export const ADRIFT = {
  speed: 0.2,
  /** Moved beyond what the cable allows, metres. */
  beyond: 3,
  sigmas: 3,
  /** Along her heading within this she is under way, not adrift. */
  underWay: 50,
  /** Seconds until the edge or a shoal that are worth a warning to people who know that she is aweigh. */
  danger: 60,
  keel: 0.5,
  farthest: 300,
} as const;

/** A boat that is taken faster than this is worth a word. */
export const TAKING = { speed: 0.1, apart: 45, windPart: 0.045 } as const;

/** Departure check: from here on "look at this before leaving". Our choice [P]. */
export const CHECK = {
  /** Means over so many seconds, now and an hour ago, of at least so many points. */
  recent: 900,
  leastPoints: 5,
  /** Wind: 20 kn, and 4 kn more than an hour ago. */
  strong: 10.3,
  freshens: 2.1,
  /** Stream: hardly any, 1 kn, and degrees apart from the wind. */
  weakStream: 0.1,
  strongStream: 0.5,
  fights: 60,
  /** Metres under the keel, now or in an hour if the water goes on falling; change of depth worth a word. */
  keel: 0.5,
  depthChange: 0.2,
  near: 20,
  /** Distance to the anchor known worse than this makes guidance coarse. */
  sigma: 6,
  moved: 0.5,
} as const;

/** Positions kept for speed: one a second, seconds. */
export const TRACK = { span: 10, spacing: 0.9, least: 4 } as const;
