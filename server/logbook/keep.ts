import type { Command } from '../../shared/commands.ts';
import type { EngineState } from '../../shared/engine.ts';
import type { Event } from '../../shared/events.ts';
import type { Input } from '../../shared/input.ts';
import { type Book, follow } from '../../shared/logbook/book.ts';
import type { Night, NightSummary, Sample } from '../../shared/logbook/night.ts';
import { endNight, summaryOf } from '../../shared/logbook/observe.ts';
import { nameNear } from '../../shared/logbook/places.ts';
import { beginNight, type NightRecord, STEP } from '../../shared/logbook/record.ts';
import { nightId } from './files.ts';
import { type Store, withSaid } from './store.ts';

/** Keeps the record of the night that goes on. None of its calls throws: a fault is told, and the watch goes on. */
export interface NightKeeper {
  /** Before the engine takes a command: keeps the state that a watch begins with. */
  before(engine: EngineState, command: Command): void;
  /** After the engine has taken an input. */
  heard(engine: EngineState, input: Input, events: readonly Event[]): void;
  /** While the journal is lived through again at a start: where it begins, and when it is through. */
  resume(engine: EngineState): void;
  resumed(engine: EngineState): void;
  /** Puts what is known now on the disk; to be called in the same turn as the engine's checkpoint, so that neither knows more. */
  save(engine: EngineState): void;
  /** The night that goes on, as of now, and its samples that are not on the disk yet. */
  now(engine: EngineState): { night: NightRecord['night']; pending: readonly Sample[] } | undefined;
  /** Everything so far is written, or has failed. */
  settled(): Promise<void>;
}

export interface KeeperOptions {
  store: Store;
  version: string;
  simulated?: string;
  /** A night is over and on the disk. `stale`: it has to be made anew from the journal. */
  closed(summary: NightSummary, stale: boolean): void;
  /** The record cannot be kept; undefined: it can again. */
  trouble(why: string | undefined): void;
}

export async function createNightKeeper(options: KeeperOptions): Promise<NightKeeper> {
  const { store, version, simulated, closed, trouble } = options;
  const book: Book = {};
  let pending: Sample[] = [];
  let start: string | undefined;
  let isReliving = false;
  /** Inputs up to this time are in the record already. */
  let known = Number.NEGATIVE_INFINITY;
  let writing: Promise<void> = Promise.resolve();
  let isTroubled = false;
  const given = new Set<string>();

  const own = (await store.summaries()).filter((night) => night.origin === 'watch');
  for (const { id, to } of own.slice(0, 2)) {
    const record = await store.record(id);
    if (!record) continue;
    if (to === undefined && !book.open) book.open = record;
    else if (to !== undefined && !book.closed) book.closed = record;
    known = Math.max(known, record.night.summary.upTo);
  }

  function safely(work: () => void): void {
    try {
      work();
    } catch (error) {
      fail(error);
    }
  }
  function fail(error: unknown): void {
    isTroubled = true;
    trouble(
      `The record of this night cannot be kept: ${(error as Error)?.message ?? error}. The journal goes on.`,
    );
  }

  function queue(work: () => Promise<void>): void {
    writing = writing.then(work).then(
      () => {
        if (!isTroubled) return;
        isTroubled = false;
        trouble(undefined);
      },
      (error) => fail(error),
    );
  }

  function newId(at: number): string {
    const id = nightId(at, (one) => given.has(one) || store.taken(one));
    given.add(id);
    return id;
  }

  const origin = (at: number) => ({
    id: newId(at),
    origin: 'watch' as const,
    version,
    ...(simulated === undefined ? {} : { simulated }),
  });

  function begun(record: NightRecord, engine: EngineState): void {
    const { summary } = record.night;
    const { id } = summary;
    const name = nameNear(store.known(), summary.mark);
    if (name !== undefined) summary.place ??= name;
    const state = start;
    start = undefined;
    queue(async () => {
      await store.make(id);
      if (state !== undefined) await store.writeStart(id, state);
      await store.writeChecksums(id, undefined);
    });
    if (!isReliving) save(engine);
  }

  function write(record: NightRecord, engine: EngineState): NightSummary {
    const summary = structuredClone(summaryOf(record, engine));
    const text = JSON.stringify(record);
    const samples = pending;
    pending = [];
    queue(async () => {
      try {
        await store.write(summary.id, text, samples);
      } catch (error) {
        pending = [...samples, ...pending];
        throw error;
      }
      await store.enter(withSaid(summary, await store.said(summary.id)));
    });
    return summary;
  }

  function save(engine: EngineState): void {
    if (book.open) write(book.open, engine);
  }

  return {
    before(engine, command) {
      if (command.do !== 'mark' || engine.watch.phase !== 'no-mark') return;
      safely(() => {
        start = JSON.stringify({ at: engine.now ?? 0, state: engine });
      });
    },
    heard(engine, input, events) {
      if (isReliving && input.at <= known) return;
      safely(() => {
        const { opened, closed: over, sample } = follow(book, engine, input, events, origin);
        if (sample) pending.push(sample);
        if (over) {
          const summary = write(over, engine);
          const stale = over.night.summary.doubts !== undefined;
          queue(async () => closed(summary, stale));
        }
        if (opened) begun(opened, engine);
      });
    },
    resume(engine) {
      isReliving = true;
      if (book.open && engine.now !== undefined && engine.now > known + 1)
        doubt(book.open, known, engine.now);
    },
    resumed(engine) {
      isReliving = false;
      safely(() => {
        const { since } = engine.watch;
        if (book.open && book.open.night.summary.from !== since) {
          // The state is of another watch than the record: whichever is right, the journal knows.
          endNight(book.open, book.open.night.summary.upTo);
          doubt(book.open, known, engine.now ?? known);
          const lost = write(book.open, engine);
          delete book.open;
          queue(async () => closed(lost, true));
        }
        if (book.open || since === undefined) return;
        const begins = beginNight(engine, engine.now ?? since, origin(since));
        if (!begins) return;
        doubt(begins, since, engine.now ?? since);
        book.open = begins;
        begun(begins, engine);
      });
      if (book.open && !book.open.night.summary.versions.includes(version))
        book.open.night.summary.versions.push(version);
    },
    save: (engine) => safely(() => save(engine)),
    now(engine) {
      if (!book.open) return undefined;
      summaryOf(book.open, engine);
      return { night: book.open.night, pending };
    },
    settled: () => writing,
  };
}

const clock = (at: number): string => `${new Date(at * 1000).toISOString().slice(11, 19)} UTC`;

function doubt({ night: { summary } }: NightRecord, from: number, to: number): void {
  const words = `Between ${clock(from)} and ${clock(to)} the record was lost; it is made anew from the journal when she is aweigh.`;
  summary.doubts = [...(summary.doubts ?? []), words];
}

/** A night as it is told, from its record. */
export const nightOf = (
  { summary, alerts, story, settings, gaps }: NightRecord['night'],
  strips: Sample[],
  checksums: Night['checksums'],
): Night => ({ summary, alerts, story, step: STEP, strips, settings, gaps, checksums });
