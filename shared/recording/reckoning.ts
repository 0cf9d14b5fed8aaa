/** Advances of UTC that the pace is learned from: so many at least, and not more than the latest so many. */
const LEARNED_FROM = 4;
const REMEMBERED = 32;
/** While the timeline is ahead of UTC it runs slower, so that UTC catches up and durations stay right within a tenth … */
const CATCHING_UP = 0.9;
/** … unless it is so far ahead, in seconds, that UTC must have been set: then UTC tells durations only. */
const TOO_FAR_AHEAD = 30;
/** Before any pace is known: time stands for so many lines, then passes as on a usual instrument bus. */
const UNLEARNED = { lines: 200, perLine: 0.1, step: 1 };

/**
 * The timeline of a recording that has no time of its own but UTC in some of its sentences: each line's time is the last UTC and,
 * since it, the pace at which lines came lately. So wind and depth go on in time while a receiver repeats the same second for
 * half an hour, as happened in a real recording. Times are UNIX seconds and never go back.
 */
export interface Reckoning {
  /** Time of the last line; undefined before any. */
  now(): number | undefined;
  /** The first UTC of a recording, or of the next one: the timeline goes there, or stays where it is and only follows. */
  begin(utc: number): number;
  /** Time of the next line, which tells `utc` or nothing. */
  next(utc?: number): number;
  /** Time of the next line when it is known otherwise. */
  set(at: number): number;
  /** How far UTC may run ahead of the timeline before it is more than a late sentence, seconds. */
  jumpLimit(): number;
  /** What was found out about UTC since the last call, in numbers. */
  findings(): { goesBack: number; stoodStill: number };
}

export function createReckoning(): Reckoning {
  let now: number | undefined;
  /** Timeline and UTC at the last advance of UTC, and lines since. */
  let base = 0;
  let lastUtc = 0;
  let lines = 0;
  let pace = 1;
  let goesBack = 0;
  let stoodStill = 0;

  const advances: { seconds: number; lines: number }[] = [];
  let learned: { perLine: number; step: number; lines: number } | undefined;

  function learn(seconds: number, count: number): void {
    if (advances.length >= REMEMBERED) advances.shift();
    advances.push({ seconds, lines: count });
    if (advances.length < LEARNED_FROM) return;
    const steps = advances.map((advance) => advance.seconds).sort((a, b) => a - b);
    const step = steps[steps.length >> 1]!;
    let sum = 0;
    let sumLines = 0;
    for (const advance of advances) {
      if (advance.seconds > 3 * step) continue; // a gap, or a clock that was set
      sum += advance.seconds;
      sumLines += advance.lines;
    }
    const perLine = sum / sumLines;
    learned = { perLine, step, lines: step / perLine };
  }

  /**
   * Reckoned time since the last advance of UTC. A UTC that is late by less than one more step is waited for and not overtaken;
   * beyond that it stands still, and time passes without it.
   */
  function reckoned(): number {
    if (!learned) return Math.max(0, lines - UNLEARNED.lines) * UNLEARNED.perLine;
    if (lines < learned.lines) return lines * learned.perLine;
    if (lines < 2 * learned.lines) return learned.step;
    const still = lines * learned.perLine - learned.step;
    stoodStill = Math.max(stoodStill, still);
    return still;
  }

  function advance(utc: number): void {
    const seconds = utc - lastUtc;
    learn(seconds, lines);
    // Behind the timeline only small advances are time that passed: a leap there is a clock that was set.
    const passed = seconds <= jumpLimit() ? pace * seconds : 0;
    base = Math.max(now!, utc >= base ? utc : base + passed);
    rest(utc);
  }

  function rest(utc: number): void {
    lastUtc = utc;
    lines = 0;
    pace = base > utc && base - utc < TOO_FAR_AHEAD ? CATCHING_UP : 1;
  }

  const moveTo = (at: number): number => {
    now = Math.max(now ?? at, Math.round(at * 1000) / 1000);
    return now;
  };
  const step = () => (learned ?? UNLEARNED).step;
  const jumpLimit = () => Math.max(60, 3 * step());

  return {
    now: () => now,
    begin(utc) {
      base = Math.max(now ?? utc, utc);
      rest(utc);
      return moveTo(base);
    },
    next(utc) {
      lines++;
      if (utc !== undefined && utc > lastUtc) {
        advance(utc);
        return moveTo(base);
      }
      // A sentence of the same second, or of another receiver that lags a little: both are usual.
      const isRepeated = utc !== undefined && utc >= lastUtc - 2 * Math.max(1, step());
      if (utc !== undefined && !isRepeated) {
        goesBack++;
        base = now!;
        rest(utc);
      }
      if (isRepeated && learned && lines < learned.lines) return now!;
      return moveTo(base + pace * reckoned());
    },
    set: (at) => moveTo(at),
    jumpLimit,
    findings() {
      const found = { goesBack, stoodStill };
      goesBack = 0;
      stoodStill = 0;
      return found;
    },
  };
}
