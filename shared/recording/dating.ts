import type { Reckoning } from './reckoning.ts';
import { type Utc, unixTime } from './utc.ts';

export interface RecordedLine {
  /** UNIX seconds; never goes back. */
  at: number;
  /** From the TAG block; `file` without one. */
  source: string;
  /** Without the recorder's TAG block. */
  text: string;
}

/** Lines looked through for the first time of a recording, and for the sentence that confirms a leap of UTC. */
const SEARCHED_FOR_START = 50_000;
const SEARCHED_FOR_CONFIRMATION = 2000;

export interface Dating {
  take(entry: Entry): void;
  /** The file is through: what waited for a later line is settled without it. */
  end(): void;
  /** The lines whose time is settled since the last call. */
  drain(): RecordedLine[];
}

/** A line with what it tells of time itself. */
export interface Entry {
  text: string;
  source: string;
  /** Time in the TAG block. */
  tagged?: number | undefined;
  utc?: Utc | undefined;
}

/**
 * Gives the lines of one file their times, in turn: from TAG blocks, else from UTC and the pace of the lines. `told` hears in words
 * what is doubtful.
 */
export function createDating(path: string, reckoning: Reckoning, told: (note: string) => void): Dating {
  let out: RecordedLine[] = [];
  /** Lines whose time depends on a later one: at the start, or at a leap of UTC that is not confirmed yet. */
  let held: Entry[] | undefined = [];
  let isStarted = false;
  /** Follows from the first TAG block on: then UTC in the sentences says nothing more. */
  let isTagged = false;
  /** Added to the TAG blocks' times of a file that begins before the end of the last one. */
  let shift = 0;
  /** No time yet in all that was searched: a second a line. */
  let isTimeless = false;
  let nearUtc = 0;
  let tagsBack = 0;

  const place = ({ text, source }: Entry, at: number): void => void out.push({ at, source, text });

  function settle(entry: Entry): void {
    if (entry.tagged !== undefined) {
      isTagged = true;
      const at = entry.tagged + shift;
      if (at < reckoning.now()!) tagsBack++;
      place(entry, reckoning.set(at));
    } else if (isTagged) {
      place(entry, reckoning.now()!);
    } else if (entry.utc) {
      nearUtc = unixTime(entry.utc, nearUtc);
      place(entry, reckoning.next(nearUtc));
    } else {
      place(entry, isTimeless ? reckoning.set(reckoning.now()! + 1) : reckoning.next());
    }
  }

  function take(entry: Entry): void {
    if (held) {
      held.push(entry);
      if (isStarted) considerLeap();
      else considerStart(entry, SEARCHED_FOR_START);
    } else if (isTimeless && (entry.tagged !== undefined || entry.utc)) {
      isTimeless = false;
      begin([entry], entry);
    } else if (isLeap(entry)) held = [entry];
    else settle(entry);
  }

  /** The first time that can be told starts the file; a time without a date waits for a date. */
  function considerStart(entry: Entry, limit: number): void {
    const entries = held!;
    const isDated = entry.tagged !== undefined || entry.utc?.date !== undefined;
    if (!isDated && entries.length < limit) return;
    held = undefined;
    isStarted = true;
    begin(entries, isDated ? entry : entries.find(({ utc }) => utc));
  }

  function begin(entries: Entry[], first: Entry | undefined): void {
    const before = reckoning.now();
    let start: number;
    if (first?.tagged !== undefined) {
      shift = Math.max(0, (before ?? first.tagged) - first.tagged);
      if (shift > 0)
        told(
          `${path} begins ${shift.toFixed(1)} s before the end of what came before it; its times are shifted to follow.`,
        );
      start = reckoning.set(first.tagged + shift);
    } else if (first?.utc) {
      if (first.utc.date === undefined)
        told(
          `${path}: no sentence tells the date, so its times are ${before === undefined ? 'of 1 January 1970' : 'reckoned on from the file before'}.`,
        );
      nearUtc = unixTime(first.utc, before ?? first.utc.timeOfDay);
      const earliest = entries.find(({ utc }) => utc)!.utc!;
      nearUtc = unixTime(earliest, nearUtc);
      start = reckoning.begin(nearUtc);
    } else {
      isTimeless = true;
      told(`${path}: no sentence tells the time, so a second is taken for each line.`);
      start = reckoning.set(before === undefined ? -1 : before);
    }
    let isBefore = first !== undefined;
    for (const entry of entries) {
      if (entry.tagged !== undefined || (entry.utc && first?.tagged === undefined)) isBefore = false;
      if (isBefore) place(entry, start);
      else settle(entry);
    }
  }

  const isLeap = (entry: Entry): boolean =>
    !isTagged &&
    entry.utc !== undefined &&
    unixTime(entry.utc, nearUtc) > reckoning.now()! + reckoning.jumpLimit();

  /** UTC leapt ahead: a gap in the recording, unless the next UTC takes it back; then it was damaged. */
  function considerLeap(isOver = false): void {
    const entries = held!;
    const next = entries.at(-1)!;
    const first = entries[0]!;
    const isDecided = entries.length > 1 && (next.utc || next.tagged !== undefined);
    if (!isDecided && !isOver && entries.length < SEARCHED_FOR_CONFIRMATION) return;
    held = undefined;
    if (next !== first && next.utc) {
      const now = reckoning.now()!;
      const leap = unixTime(first.utc!, nearUtc) - now;
      if (unixTime(next.utc, nearUtc) - now < leap / 2) first.utc = undefined;
    }
    settle(first);
    for (const entry of entries.slice(1)) take(entry);
  }

  return {
    take,
    end() {
      if (!isStarted && held?.[0]) considerStart(held.at(-1)!, 0);
      while (held && isStarted) considerLeap(true);
      const { goesBack, stoodStill } = reckoning.findings();
      if (tagsBack > 0)
        told(`${path}: the TAG blocks' time goes back ${tagsBack} times; those lines keep the time before.`);
      if (goesBack > 0)
        told(`${path}: UTC goes back ${goesBack} times; the timeline goes on by what it advances.`);
      if (stoodStill > 10)
        told(
          `${path}: UTC stands still for up to ${Math.round(stoodStill)} s while sentences come on; their times are reckoned from the pace of the lines.`,
        );
    },
    drain() {
      const batch = out;
      out = [];
      return batch;
    },
  };
}
