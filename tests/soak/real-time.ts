import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import { openAccess } from '../../server/access/open.ts';
import { settingsOf } from '../../server/commands/rehearse.ts';
import { startDaemon } from '../../server/daemon.ts';
import { journalInputs } from '../../server/journal/read.ts';
import { anchorages } from '../../server/simulate/anchorages.ts';
import { playInto } from '../../server/simulate/play.ts';
import { createSimulator } from '../../server/simulate/simulator.ts';
import { createTimeline } from '../../server/timeline.ts';
import { createEngine, step } from '../../shared/engine.ts';
import { slope } from './slope.ts';

export interface RealFigures {
  minutes: number;
  sentences: number;
  /** Resident memory in the beginning (after two minutes) and in the end, and its slope, bytes an hour. */
  memory: Course;
  /** Heap in use after a collection, likewise. */
  heap: Course;
  /** The state of the live engine and of its journal stepped again are the same to the byte. */
  same: boolean;
  faults: string[];
}

interface Course {
  first: number;
  last: number;
  slopePerHour: number;
}

type Sample = { x: number; y: number };

/** Hours until what a start needs has come. */
const SETTLED = 2 / 60;

function courseOf(samples: readonly Sample[]): Course {
  const settled = samples.filter(({ x }) => x > SETTLED);
  return {
    first: settled[0]?.y ?? Number.NaN,
    last: settled.at(-1)?.y ?? Number.NaN,
    slopePerHour: slope(settled),
  };
}

/** The whole daemon on a simulated anchorage for so many real minutes, on the clocks of this computer. */
export async function realTime({
  minutes,
  told,
}: {
  minutes: number;
  told(text: string): void;
}): Promise<RealFigures> {
  const data = mkdtempSync(join(tmpdir(), 'hawse-soak-real-'));
  const scenario = anchorages().find(({ name }) => name === 'squall')!;
  const start = Math.ceil(Date.now() / 1000);
  const simulator = createSimulator({ ...scenario, start: { ...scenario.start, at: start } }, 1);
  const settings = settingsOf(scenario);
  const faults: string[] = [];
  const ring = openAccess(data, { now: () => Date.now() / 1000, note: (text) => faults.push(text) });
  const daemon = await startDaemon({
    settings,
    data,
    startTimeline: () => createTimeline(start),
    feeder: (sinks, timeline) =>
      playInto(simulator, { now: timeline.now, line: (text) => sinks.line('sim', text) }),
    server: {
      port: 0,
      host: '127.0.0.1',
      names: [],
      access: { look: 'anyone', thisComputer: 'command', ...ring },
      webRoot: join(process.cwd(), 'dist/web'),
    },
    log: pino({ level: 'error' }, pino.destination(2)),
  });
  const { lat, lon } = simulator.truth().anchor;
  await daemon.keeper.feed({
    kind: 'command',
    by: 'soak',
    command: { do: 'mark', how: { lat, lon, sigma: 2 } },
  });
  const resident: Sample[] = [];
  const heap: Sample[] = [];
  const begun = performance.now();
  const hours = () => (performance.now() - begun) / 3_600_000;
  while (hours() * 60 < minutes) {
    await new Promise((resolve) => setTimeout(resolve, 15_000));
    (globalThis as { gc?: () => void }).gc?.();
    const { rss, heapUsed } = process.memoryUsage();
    resident.push({ x: hours(), y: rss });
    heap.push({ x: hours(), y: heapUsed });
    if (heap.length % 20 === 0)
      told(
        `${(hours() * 60).toFixed(0)} min: ${(rss / 1e6).toFixed(1)} MB resident, heap ${(heapUsed / 1e6).toFixed(1)} MB`,
      );
  }
  const live = daemon.keeper.engine();
  await daemon.stop('the soak is over');
  let engine = createEngine(settings);
  for await (const input of journalInputs(data, undefined, undefined, (note) => faults.push(note)))
    engine = step(engine, input).state;
  engine = step(engine, { kind: 'tick', at: live.now! }).state;
  const hashOf = (state: unknown) => createHash('sha256').update(JSON.stringify(state)).digest('hex');
  const figures: RealFigures = {
    minutes,
    sentences: live.inputs.reduce((sum, input) => sum + input.sentences, 0),
    memory: courseOf(resident),
    heap: courseOf(heap),
    same: hashOf(engine) === hashOf(live),
    faults,
  };
  rmSync(data, { recursive: true, force: true });
  return figures;
}
