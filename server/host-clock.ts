import { uptime } from 'node:os';
import type { Priority } from '../shared/alerts/alert.ts';
import type { Timeline } from './timeline.ts';

/** The clocks of this computer, seconds. */
export interface HostClocks {
  /** UNIX time as the computer believes it; may be set, forward and back. */
  wall(): number;
  /** Counts while the computer is awake, never steps. */
  monotonic(): number;
  /** Counts since the computer started, asleep or awake, never steps. */
  sinceBoot(): number;
}

export const hostClocks: HostClocks = {
  wall: () => Date.now() / 1000,
  monotonic: () => performance.now() / 1000,
  sinceBoot: uptime,
};

export interface ClockWatchPorts {
  timeline: Timeline;
  tell(fault: {
    alert: 'clock' | 'daemon';
    subject: string;
    raised: boolean;
    priority: Priority;
    text: string;
  }): void;
}

/** Subjects of its faults. */
export const STEPPED = 'computer';
export const SLEPT = 'slept';

/** Less than this between computer and log misleads nobody, seconds: as `shared/clock.ts` has it for the receiver. */
const TOLERATED = 5;
/** A sleep shorter than this is a delay, seconds. */
const SLEEP = 3;
/** The alarm of a sleep ends by itself after this, seconds: the computer is awake. */
const SLEPT_ENDS = 600;

/**
 * Notices that the computer's clock was set, that it is behind the log (no clock battery), or that the computer slept. hawse counts its own
 * time on the monotonic clock: a clock that is set moves no time-out and no record. A sleep does move time on: what was heard before is old.
 */
export function createClockWatch(clocks: HostClocks, { timeline, tell }: ClockWatchPorts) {
  const ahead = () => clocks.sinceBoot() - clocks.monotonic();
  let asleep = ahead();
  let sleptAt: number | undefined;
  let told = '';

  function lookForSleep(): void {
    const slept = ahead() - asleep;
    // Slower than real time: the two clocks are read one after the other.
    if (slept < SLEEP) {
      if (sleptAt !== undefined && clocks.monotonic() - sleptAt > SLEPT_ENDS) {
        sleptAt = undefined;
        tell({
          alert: 'daemon',
          subject: SLEPT,
          raised: false,
          priority: 'alarm',
          text: 'The computer stays awake.',
        });
      }
      return;
    }
    asleep += slept;
    sleptAt = clocks.monotonic();
    timeline.forward(slept);
    const text = `The computer slept for ${Math.round(slept)} s, and nobody watched. Forbid it to sleep: see docs/service.md.`;
    tell({ alert: 'daemon', subject: SLEPT, raised: true, priority: 'alarm', text });
  }

  function lookForStep(): void {
    const offset = clocks.wall() - timeline.now();
    const raised = Math.abs(offset) > TOLERATED;
    const text = raised ? wordsFor(offset) : "The computer's clock and the log agree again.";
    const now = raised ? `${Math.sign(offset)} ${Math.round(Math.log2(Math.abs(offset)))}` : '';
    if (now === told) return;
    told = now;
    tell({ alert: 'clock', subject: STEPPED, raised, priority: 'caution', text });
  }

  return {
    look(): void {
      lookForSleep();
      lookForStep();
    },
  };
}

function wordsFor(offset: number): string {
  const by = spell(Math.abs(offset));
  return offset > 0
    ? `The computer's clock was set forward by ${by}. The watch goes on by its own count, so the log's times are ${by} behind: restart hawse when nobody sleeps by it, and it takes the new time.`
    : `The computer's clock is ${by} behind the log: it was set back, or has no battery. The log goes on in order, ahead of that clock. Set the clock right; if the log is what is wrong, begin a new one (--data) when nobody sleeps by it.`;
}

function spell(seconds: number): string {
  if (seconds < 120) return `${Math.round(seconds)} s`;
  if (seconds < 7200) return `${Math.round(seconds / 60)} min`;
  if (seconds < 172_800) return `${Math.round(seconds / 3600)} h`;
  return `${Math.round(seconds / 86_400)} days`;
}
