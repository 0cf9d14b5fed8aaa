import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { settingsOf } from '../../../server/commands/rehearse.ts';
import { openJournal } from '../../../server/journal/journal.ts';
import { createKeeper, type Keeper, restoreEngine } from '../../../server/keeper.ts';
import { createNightKeeper, type NightKeeper } from '../../../server/logbook/keep.ts';
import { createLogbook, type Logbook } from '../../../server/logbook/logbook.ts';
import type { Store } from '../../../server/logbook/store.ts';
import { nightStore, recorded } from '../../../server/nights.ts';
import { anchorages } from '../../../server/simulate/anchorages.ts';
import { createSimulator } from '../../../server/simulate/simulator.ts';
import type { Event } from '../../../shared/events.ts';

export const START = Date.UTC(2026, 10, 25, 20, 10, 0) / 1000;

export const emptyData = (): string => mkdtempSync(join(tmpdir(), 'hawse-logbook-'));

export interface Kept {
  data: string;
  keeper: Keeper;
  nights: NightKeeper;
  logbook: Logbook;
  store: Store;
  /** Where the anchor truly lies. */
  anchor(): { lat: number; lon: number };
  /** What the engine said, as it was said. */
  events: Event[];
  /** What the logbook complained of. */
  troubles: string[];
  closed: { id: string; stale: boolean }[];
  /** Lets the simulated boat speak for so many seconds, with the daemon's ticks between. */
  live(seconds: number): Promise<void>;
  /** Time passes and nobody hears anything. */
  away(seconds: number): void;
  stop(): Promise<void>;
}

const TICK = 0.25;

/**
 * A daemon without port and clock: journal, keeper and logbook on the disk, fed by a simulated anchorage as fast as it goes. Called again
 * with the same `data` it is a restart.
 */
export async function keepNights(
  data = emptyData(),
  { anchorage = 'drag-creep', seed = 1, at = START }: { anchorage?: string; seed?: number; at?: number } = {},
): Promise<Kept> {
  const scenario = anchorages().find(({ name }) => name === anchorage)!;
  const settings = settingsOf(scenario);
  const faults: string[] = [];
  const journal = await openJournal(data, { onfault: (text) => faults.push(text), onrecovered() {} });
  const store = await nightStore(data);
  const events: Event[] = [];
  const troubles: string[] = faults;
  const closed: Kept['closed'] = [];
  const nights = await createNightKeeper({
    store,
    version: '0.0.0-test',
    closed: ({ id }, stale) => void closed.push({ id, stale }),
    trouble: (why) => void (why !== undefined && troubles.push(why)),
  });
  const { engine } = await restoreEngine(journal, settings, nights);
  let now = Math.max(at, engine.now ?? at);
  let last = now;
  const timeline = {
    now: () => now,
    stamp() {
      last = Math.max(Math.round(now * 1e6) / 1e6, Math.round((last + 1e-6) * 1e6) / 1e6);
      return last;
    },
  };
  const keeper = createKeeper(engine, {
    journal,
    timeline: timeline as never,
    heard: (heard) => void events.push(...heard),
    broken(error) {
      throw error;
    },
    nights,
  });
  const logbook = createLogbook({
    store,
    recorded,
    version: '0.0.0-test',
    settings,
    now: () => nights.now(keeper.engine()),
    told: (note) => void troubles.push(note),
  });
  const simulator = createSimulator({ ...scenario, start: { ...scenario.start, at: now } }, seed);
  await keeper.feed({ kind: 'settings', settings });
  return {
    data,
    keeper,
    nights,
    logbook,
    store,
    anchor: () => simulator.truth().anchor,
    events,
    troubles,
    closed,
    async live(seconds) {
      const end = now + seconds;
      for (let tick = now + TICK; now < end; tick += TICK) {
        simulator.step(Math.max(0, tick - simulator.truth().at));
        for (const said of simulator.sentences()) {
          now = Math.max(now, said.at);
          void keeper.feed({ kind: 'line', source: 'sim', text: said.text });
        }
        now = Math.max(now, tick);
        keeper.tick();
      }
      await keeper.checkpoint();
      await nights.settled();
    },
    away(seconds) {
      now += seconds;
    },
    async stop() {
      await keeper.checkpoint();
      await nights.settled();
      await journal.close();
    },
  };
}

/** All of a stream of text. */
export async function whole(pieces: AsyncIterable<string>): Promise<string> {
  let text = '';
  for await (const piece of pieces) text += piece;
  return text;
}
