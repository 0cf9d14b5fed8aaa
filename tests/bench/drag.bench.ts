import { isMainThread, parentPort, Worker } from 'node:worker_threads';
import { FITTED } from './drag/instruments.ts';
import { KINDS } from './drag/kinds.ts';
import { liveNight, type Night } from './drag/night.ts';
import { drawAll } from './drag/pictures.ts';
import { type Detector, detectors, HAWSE, HEADING, plotted, row, summary } from './drag/report.ts';

/**
 * `npm run bench:drag -- [SEEDS] [FILTER] [FIRST] [OUTFITS] [MINUTES]`: nights of the project's own simulator, held and dragging, SEEDS of each
 * kind, on two threads. The first OUTFITS seeds are heard by the boats with fewer instruments as well. After MINUTES no more are begun.
 */
interface Task {
  kind: number;
  seed: number;
  outfits: number;
}

if (isMainThread) {
  const [seeds = '4', filter = '', first = '0', outfits = '1', minutes = '600'] = process.argv.slice(2);
  const tasks: Task[] = [];
  for (let n = Number(first); n < Number(first) + Number(seeds); n++)
    for (const [kind, { name, held }] of KINDS.entries())
      if (`${held ? 'held' : 'drag'} ${name}`.includes(filter))
        // Each kind has its own seeds, so that no two kinds share the weather of a receiver.
        tasks.push({
          kind,
          seed: n + 100 * (kind + 1),
          outfits: n - Number(first) < Number(outfits) ? FITTED.length : 1,
        });
  const all = tasks.length;
  const until = performance.now() + 60_000 * Number(minutes);
  const nights = (await Promise.all([0, 1].map(() => work(tasks, until)))).flat();
  console.log(`${all - tasks.length} of ${all} nights`);
  print(nights);
} else {
  parentPort!.on('message', ({ kind, seed, outfits }: Task) =>
    parentPort!.postMessage(liveNight(KINDS[kind]!, seed, FITTED.slice(0, outfits))),
  );
}

function work(tasks: Task[], until: number): Promise<Night[]> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL(import.meta.url));
    const nights: Night[] = [];
    const next = () => {
      const task = performance.now() < until ? tasks.shift() : undefined;
      if (task) worker.postMessage(task);
      else worker.terminate().then(() => resolve(nights));
    };
    worker.on('message', (done: Night[]) => {
      nights.push(...done);
      next();
    });
    worker.on('error', reject);
    next();
  });
}

function print(nights: Night[]): void {
  for (const { name, held } of KINDS) {
    const own = nights
      .filter((night) => night.kind === name && night.held === held && night.fitted === FITTED[0]!.name)
      .sort((a, b) => a.seed - b.seed);
    if (own.length > 0)
      console.log(`${(held ? 'held' : 'drag').padEnd(5)}${name.padEnd(22)} ${own.map(brief).join('  ')}`);
  }
  console.log(`\n${HEADING}`);
  for (const { name } of FITTED) {
    const own = nights.filter((night) => night.fitted === name);
    const held = own.filter((night) => night.held);
    const dragging = own.filter((night) => !night.held);
    if (name === FITTED[0]!.name) for (const one of detectors(held)) console.log(row(one, held, dragging));
    else if (own.length > 0) console.log(row(fewer(name), held, dragging));
  }
  console.log('');
  const full = nights.filter((night) => night.fitted === FITTED[0]!.name);
  const [held, dragging] = [full.filter((night) => night.held), full.filter((night) => !night.held)];
  if (held.length > 0 && dragging.length > 0) {
    for (const line of summary(held, dragging)) console.log(line);
    for (const file of drawAll(dragging, plotted(held))) console.log(file);
  }
  console.log('');
  for (const { name } of KINDS.filter(({ held }) => !held)) {
    const own = nights.filter(
      (night) => !night.held && night.kind === name && night.fitted === FITTED[0]!.name,
    );
    if (own.length > 0) console.log(row({ ...HAWSE, name: `hawse, ${name}` }, [], own));
  }
  for (const night of nights)
    if (night.held && night.drag)
      console.log(
        `false, ${night.fitted}: ${night.kind} ${night.seed}, after ${(night.drag.after / 60).toFixed(0)} min: ${night.text}`,
      );
}

/** Held nights by the drag alarm alone, since the circle is no matter of the instruments; dragging ones by the first alarm. */
function fewer(name: string): Detector {
  return {
    name: `hawse, ${name}`,
    alarm: (night) => (night.held ? night.drag : HAWSE.alarm(night)),
  };
}

function brief({ held, moved, drag, circle, caution }: Night): string {
  if (!held)
    return `${HAWSE.alarm({ drag, circle } as Night)?.moved.toFixed(1) ?? 'none'}/${moved.toFixed(0)}`;
  return [drag && 'DRAG', circle && 'circle', caution && 'caution'].filter(Boolean).join('+') || '-';
}
