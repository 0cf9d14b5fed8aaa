/**
 * Every number of the watch's conditions. Seconds, metres, m/s, degrees. A condition is raised once what it looks at was beyond
 * its limit without a break for `raise.after` seconds and `raise.readings` readings; it ends once that was back within the limit,
 * less the hysteresis, for `clear.after` seconds and `clear.readings` readings. A gap between readings of more than `gap` seconds
 * is a break; it neither raises nor ends anything.
 * Without another source named: our choice [P], made to be explained to the person who is woken by it.
 */
export interface Rule {
  raise: { after: number; readings: number };
  clear: { after: number; readings: number };
  gap: number;
}

const AT_ONCE = { after: 0, readings: 0 };

export const OUTSIDE_CIRCLE = {
  /** Three fixes, not one jump; adrift at 1.6 kn (bare masts at 30 kn, seamanship-physics.md §10 [F]) she makes 3 m meanwhile. */
  rule: { raise: { after: 4, readings: 3 }, clear: { after: 10, readings: 3 }, gap: 8 },
  /** While the position is doubtful: a minute outlasts most jumps; then it is a warning. */
  doubtfulRule: { raise: { after: 60, readings: 3 }, clear: { after: 60, readings: 3 }, gap: 8 },
  /**
   * What the error of a doubtful position explains, metres: a receiver in a bad place was off by 170 m (95 %), 196 m (99 %), its error
   * forgotten in 2 to 5 min (nmea-0183.md §4 [M]). Beyond that for a minute, or outside without a break for many times as long, is an alarm.
   */
  explained: 200,
  farRule: { raise: { after: 60, readings: 3 }, clear: { after: 60, readings: 3 }, gap: 8 },
  longRule: { raise: { after: 1200, readings: 3 }, clear: { after: 60, readings: 3 }, gap: 8 },
  /** How far back inside counts as inside. */
  hysteresis: 2,
} satisfies Record<string, Rule | number>;

export const SECTOR = {
  /** As for the circle. */
  rule: { raise: { after: 4, readings: 3 }, clear: { after: 20, readings: 3 }, gap: 8 },
  doubtfulRule: { raise: { after: 60, readings: 3 }, clear: { after: 60, readings: 3 }, gap: 8 },
} satisfies Record<string, Rule>;

export const POSITION_LOST = {
  /** IMO A.1046(27): integrity warning within 10 s [F]; judged on whole seconds, so told after 9 s at the latest. */
  age: 8,
  rule: { raise: AT_ONCE, clear: { after: 0, readings: 3 }, gap: 8 },
} as const;

export const DEPTH = {
  /** Three readings: fish and weed give one or two. The bottom is back only when it stays for half a minute. */
  rule: { raise: { after: 5, readings: 3 }, clear: { after: 30, readings: 3 }, gap: 20 },
  hysteresis: 0.2,
} as const;

export const WIND_SPEED = {
  /** Not every gust: a quarter of a minute on end. Gone when a minute passes without reaching 90 % of the limit. */
  rule: { raise: { after: 15, readings: 3 }, clear: { after: 60, readings: 3 }, gap: 20 },
  hysteresisPart: 0.1,
} as const;

export const WIND_SHIFT = {
  rule: { raise: { after: 60, readings: 3 }, clear: { after: 60, readings: 3 }, gap: 20 },
  hysteresis: 10,
  /** Lighter wind has no direction worth speaking of: Beaufort 2 begins at 1.6 m/s (WMO [F]). */
  leastSpeed: 2,
  /** Seconds of wind of at least that speed that make the reference, and the running mean it is compared with. */
  reference: 600,
  mean: 120,
  leastOfMean: 60,
  /** Directions that hang together less than this (mean resultant length, 0..1) have no mean; a reference is then taken anew. */
  leastConcentration: 0.5,
} as const;

const LOST_RULE: Rule = { raise: AT_ONCE, clear: { after: 10, readings: 0 }, gap: 60 };

export const LOST = {
  /** Age of the last good value that counts as lost. */
  heading: { age: 15, rule: LOST_RULE },
  wind: { age: 20, rule: LOST_RULE },
  depth: { age: 20, rule: LOST_RULE },
  /** How long a limit may be set without any value since the watch began before hawse says that it can't be watched. */
  neverHeard: 60,
} as const;

export const CIRCLE = {
  /** Depth and accuracy that are not known when the circle is computed are waited for this long; then the circle stands. */
  learn: 60,
  /** Sigma per axis when the receiver tells none: GPS SPS PS 2020, 8 m (95 %) ÷ 2.4477 [M]. */
  positionSigma: 3.3,
  /** How many sigma of mark and of position are added. */
  sigmas: 2,
} as const;

export const MARK = {
  /** Sigma of a mark told by latitude and longitude without its own. */
  toldSigma: 5,
  /** Hand bearing compass and estimated distance, one sigma: degrees, and part of the distance. */
  bearingSigma: 3,
  distanceSigmaPart: 0.05,
  /** A mark taken from a doubtful position: twice its sigma, and no less than this. */
  doubtfulSigma: 10,
  doubtfulFactor: 2,
  /** Longest distance that can be meant when a mark is told by bearing and distance. */
  longest: 1000,
} as const;

export const TRACK = {
  /** A point each time she has moved this far or this long has passed. */
  spacing: 1,
  interval: 10,
  /** A point tells how she lies so often, s. */
  minute: 60,
  /** At this many points those older than a day are dropped, or every second one: a night stays whole. */
  points: 4000,
  age: 86_400,
} as const;
