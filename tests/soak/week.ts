import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { settingsOf } from '../../server/commands/rehearse.ts';
import { openJournal } from '../../server/journal/journal.ts';
import { journalInputs } from '../../server/journal/read.ts';
import { listSegments } from '../../server/journal/segments.ts';
import { createKeeper, type Incoming, type Keeper } from '../../server/keeper.ts';
import { anchorages } from '../../server/simulate/anchorages.ts';
import { createSimulator } from '../../server/simulate/simulator.ts';
import { createTimeline } from '../../server/timeline.ts';
import { list } from '../../shared/alerts/alerts.ts';
import { createEngine, step } from '../../shared/engine.ts';
import type { Event } from '../../shared/events.ts';
import { slope } from './slope.ts';

export interface SoakOptions {
  /** Simulated days, one anchorage of the simulator each, in turn. */
  days: number;
  /** Hours of each day that are lived. */
  hours: number;
  /** The same sentences on so many inputs. */
  inputs: number;
  told?(text: string): void;
}

export interface SoakFigures {
  hours: number;
  sentences: number;
  perSecond: number;
  events: number;
  /** SHA-256 over every event of the run, and of its journal stepped again. */
  live: string;
  replayed: string;
  same: boolean;
  /** Bytes of heap in use after a collection: at the end of the first and of the last day, and the slope over all days but the first. */
  heap: { first: number; last: number; slopePerDay: number };
  /** The engine's state as JSON at the end of each day, bytes. */
  state: { first: number; last: number; most: number };
  segments: number;
  faults: string[];
}

const START = Date.UTC(2026, 10, 1, 12) / 1000;
const DAY = 86_400;
const PLACES = 1e6;

/**
 * Days of simulated nights through keeper and journal, with orders from people, checkpoints and packing as in the daemon; then all of the
 * journal through a new engine. Time is the simulator's: nothing waits.
 */
export async function soak({ days, hours, inputs, told }: SoakOptions): Promise<SoakFigures> {
  const data = mkdtempSync(join(tmpdir(), 'hawse-soak-'));
  const scenarios = anchorages();
  const settings = settingsOf(scenarios[0]!);
  let clock = START;
  const timeline = createTimeline(START, 1, { monotonic: () => clock - START });
  const faults: string[] = [];
  const journal = await openJournal(data, {
    onfault: (text) => faults.push(text),
    onrecovered: () => undefined,
  });
  const live = digest();
  let sentences = 0;
  const keeper = createKeeper(createEngine(settings), {
    journal,
    timeline,
    heard: (events) => live.add(events),
    broken: (error, room) => faults.push(`${room}: ${(error as Error).stack ?? error}`),
  });
  const heaps: number[] = [];
  const states: number[] = [];
  try {
    for (let day = 0; day < days; day++) {
      const scenario = scenarios[day % scenarios.length]!;
      const at = START + day * DAY;
      const simulator = createSimulator({ ...scenario, start: { ...scenario.start, at } }, day + 1);
      clock = Math.max(clock, at);
      await keeper.feed({ kind: 'settings', settings: settingsOf(scenario) });
      await order(keeper, { do: 'mark', how: { ...place(simulator.truth().anchor), sigma: 2 } });
      let minute = 0;
      let next = at;
      while (next < at + hours * 3600) {
        next += 1;
        simulator.step(1);
        for (const said of simulator.sentences()) {
          clock = Math.max(clock, said.at);
          for (let input = 0; input < inputs; input++) {
            void keeper.feed({ kind: 'line', source: `sim${input}`, text: said.text });
            sentences++;
          }
        }
        clock = Math.max(clock, next);
        keeper.tick();
        if (++minute % 60 !== 0) continue;
        await keeper.checkpoint();
        if (minute % 600 === 0)
          for (const { id } of list(keeper.engine().alerts))
            await order(keeper, { do: 'acknowledge', alert: id });
        if (minute % 3600 !== 0) continue;
        await journal.tidy(
          { keepSeconds: 400 * DAY, keepBytes: 1e12, leastFree: 0, packAfter: DAY },
          { now: clock, keepFrom: 0, free: undefined },
        );
      }
      await order(keeper, { do: 'aweigh' });
      heaps.push(heapNow());
      states.push(JSON.stringify(keeper.engine()).length);
      told?.(
        `day ${day + 1} (${scenario.name}): ${sentences} sentences, ${live.count()} events, heap ${(heaps.at(-1)! / 1e6).toFixed(1)} MB, state ${(states.at(-1)! / 1e3).toFixed(0)} kB`,
      );
    }
    const end = keeper.engine().now!;
    const last = JSON.stringify(keeper.engine());
    await journal.close();
    const again = digest();
    const engine = { state: createEngine(settings) };
    const tell = (note: string) => faults.push(note);
    for await (const input of journalInputs(data, undefined, undefined, tell)) {
      const done = step(engine.state, input);
      engine.state = done.state;
      again.add(done.events);
    }
    again.add(step(engine.state, { kind: 'tick', at: end }).events);
    if (JSON.stringify(engine.state) !== last)
      faults.push('the state in the end is another than that of the live run');
    return {
      hours: days * hours,
      sentences,
      perSecond: sentences / (days * hours * 3600),
      events: live.count(),
      live: live.hash(),
      replayed: again.hash(),
      same: live.hash() === again.hash(),
      heap: {
        first: heaps[0]!,
        last: heaps.at(-1)!,
        slopePerDay: slope(heaps.slice(1).map((y, x) => ({ x, y }))),
      },
      state: { first: states[0]!, last: states.at(-1)!, most: Math.max(...states) },
      segments: (await listSegments(data)).length,
      faults,
    };
  } finally {
    rmSync(data, { recursive: true, force: true });
  }
}

const place = ({ lat, lon }: { lat: number; lon: number }) => ({
  lat: Math.round(lat * PLACES) / PLACES,
  lon: Math.round(lon * PLACES) / PLACES,
});

type Order = Extract<Incoming, { kind: 'command' }>['command'];
const order = (keeper: Keeper, command: Order) => keeper.feed({ kind: 'command', by: 'soak', command });

/** A running checksum of events, each as a line of JSON; the hash may be asked for at any time. */
function digest() {
  const hash = createHash('sha256');
  let count = 0;
  return {
    add(events: readonly Event[]) {
      for (const event of events) {
        hash.update(`${JSON.stringify(event)}\n`);
        count++;
      }
    },
    count: () => count,
    hash: () => hash.copy().digest('hex'),
  };
}

function heapNow(): number {
  (globalThis as { gc?: () => void }).gc?.();
  return process.memoryUsage().heapUsed;
}
