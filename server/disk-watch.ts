import type { EngineState } from '../shared/engine.ts';
import { clockOffset } from '../shared/vessel/time.ts';
import type { Journal } from './journal/journal.ts';
import { POLICY, type Policy, type Present } from './journal/retention.ts';

export interface DiskWatchPorts {
  journal: Pick<Journal, 'freeBytes' | 'tidy'>;
  policy?: Policy | undefined;
  engine(): EngineState;
  now(): number;
  /** The `disk` fault of the room that is left; called when it changes. */
  tell(raised: boolean, text: string): void;
  note(text: string): void;
}

/** Seconds between two rounds of tidying; the first comes a while after the start, when everything else is up. */
const TIDY_EVERY = 3600;
const FIRST_TIDY = 120;
/** What a receiver's UTC may differ from the timeline for age to be believed, seconds. */
const BELIEVED = 86_400;

/** Keeps room on the disk of the journal, and warns before there is none. Rounds never reject and never overlap. */
export function createDiskWatch({ journal, policy = POLICY, engine, now, tell, note }: DiskWatchPorts) {
  let nextTidy = now() + FIRST_TIDY;
  let isLow = false;
  let isBusy = false;

  function present(free: number | undefined): Present {
    const { vessel, watch, left } = engine();
    const offset = clockOffset(vessel.time, now());
    return {
      // A clock that is years ahead must not remove every night that there was.
      now: offset !== undefined && Math.abs(offset) < BELIEVED ? now() : undefined,
      keepFrom: watch.since ?? left?.watch.since ?? Number.POSITIVE_INFINITY,
      free,
    };
  }

  async function round(): Promise<void> {
    let free = await journal.freeBytes();
    const isScarce = free !== undefined && free < policy.leastFree;
    if (now() >= nextTidy || (isScarce && !isLow)) {
      nextTidy = now() + TIDY_EVERY;
      const { notes } = await journal.tidy(policy, present(free));
      for (const text of notes) note(text);
      free = await journal.freeBytes();
    }
    if (free === undefined) return;
    const low = free < policy.leastFree;
    if (low === isLow) return;
    isLow = low;
    const left = `${Math.round(free / 1e6)} MB are left on the disk of the log`;
    tell(low, low ? `${left}: make room before the log stops.` : `${left}.`);
  }

  return {
    async look(): Promise<void> {
      if (isBusy) return;
      isBusy = true;
      try {
        await round();
      } finally {
        isBusy = false;
      }
    },
  };
}
