/**
 * The daemon's timeline: UNIX seconds that never go back and never repeat, to the microsecond, so that every input has its own
 * place in the journal. It runs on the monotonic clock, so a step of the computer's clock neither stops nor repeats time.
 */
export interface Timeline {
  /** The time now, without taking it. */
  now(): number;
  /** A time of its own for one input. */
  stamp(): number;
  /** Real time went on while the monotonic clock stood still: the computer slept for so many seconds. */
  forward(seconds: number): void;
}

export interface Clock {
  /** Seconds on a clock that never steps. */
  monotonic(): number;
}

export const hostClock: Clock = { monotonic: () => performance.now() / 1000 };

const MICROSECOND = 1e-6;

/** `start`: UNIX time at this moment; `rate`: how fast the timeline runs against the monotonic clock (1 on real instruments). */
export function createTimeline(start: number, rate = 1, clock: Clock = hostClock): Timeline {
  const origin = clock.monotonic();
  let last = start;
  let slept = 0;
  const reading = () => start + (clock.monotonic() - origin + slept) * rate;
  const rounded = (at: number) => Math.round(at / MICROSECOND) / 1e6;
  return {
    now: () => Math.max(last, rounded(reading())),
    stamp() {
      last = Math.max(rounded(reading()), rounded(last + MICROSECOND));
      return last;
    },
    forward(seconds) {
      slept += Math.max(0, seconds);
    },
  };
}
