// How quick the logbook is when it is old: a thousand nights and 50 GB of recorded sentences in the data folder.
// usage: npm run bench:logbook [-- NIGHTS]. The sentences are sparse files of the right number and size: nothing may read them to list or
// open a night, and would take visibly long if it did. One night is real (simulated instruments through the engine), so that exporting and
// living it again can be timed too.
import { mkdirSync, mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { makeSegment } from '../../server/journal/segments.ts';
import { nightId } from '../../server/logbook/files.ts';
import { createLogbook } from '../../server/logbook/logbook.ts';
import { nightStore, recorded } from '../../server/nights.ts';
import type { Sample } from '../../shared/logbook/night.ts';
import type { NightRecord } from '../../shared/logbook/record.ts';
import { keepNights, whole } from '../server/logbook/keptNight.ts';

const NIGHTS = Number(process.argv[2] ?? 1000);
const HOURS = 12;
const STEP = 30;
const BYTES = 50e9;
const SEGMENT = 8 * 1024 * 1024;
const REAL_SECONDS = 3600;
const FIRST = Date.UTC(2023, 0, 1, 18) / 1000;

async function timed<T>(name: string, work: () => Promise<T>): Promise<T> {
  const from = performance.now();
  const done = await work();
  console.log(`${name.padEnd(72)} ${(performance.now() - from).toFixed(1).padStart(9)} ms`);
  return done;
}

const data = mkdtempSync(join(tmpdir(), 'hawse-bench-logbook-'));
try {
  const real = await realNight();
  generate(real.record, real.strips);
  const settings = real.settings;
  const made = async () =>
    createLogbook({ store: await nightStore(data), recorded, version: 'bench', settings, told: () => {} });

  console.log(
    `${NIGHTS} nights of ${HOURS} h, ${(BYTES / 1e9).toFixed(0)} GB of sentences in ${Math.ceil(BYTES / SEGMENT)} segments`,
  );
  const first = await timed('open the logbook without an index (every summary is read)', made);
  // The index is written when a summary changes.
  await first.say((await first.list()).nights[5]!.id, { notes: 'Weed.' });
  const logbook = await timed('open the logbook with its index', made);
  const { nights } = await timed(`list ${NIGHTS} nights, first time`, () => logbook.list(NIGHTS));
  await timed(`list ${NIGHTS} nights again`, () => logbook.list(NIGHTS));
  await timed(
    '  the same as JSON, as the api answers',
    async () => JSON.stringify(await logbook.list(NIGHTS)).length,
  );
  const ids = nights.map(({ id }) => id);
  for (const i of [1, Math.floor(NIGHTS / 2), NIGHTS - 1])
    await timed(
      `open night ${i + 1} of ${NIGHTS}`,
      async () => JSON.stringify(await logbook.open(ids[i]!)).length,
    );
  await timed('places near a mark', () => logbook.places(nights[3]!.mark));
  await timed('a day of the track', () => logbook.track(nights[9]!.from, nights[9]!.from + 86_400));
  const realId = ids.find((id) => id.startsWith('2026'))!;
  const bytes = await timed(
    `sentences of the real night (${REAL_SECONDS / 3600} h), beside 50 GB`,
    async () => (await whole(await logbook.sentences(realId))).length,
  );
  console.log(`  ${(bytes / 1e6).toFixed(1)} MB`);
  await timed('  its inputs', async () => (await whole(await logbook.inputs(realId))).length);
  for (const as of ['gpx', 'geojson', 'csv'] as const)
    await timed(
      `  its ${as}: lived again fix by fix`,
      async () => (await whole(await logbook.export(realId, as))).length,
    );
  console.log(`memory: ${(process.memoryUsage().rss / 1e6).toFixed(0)} MB`);
} finally {
  rmSync(data, { recursive: true, force: true });
}

async function realNight() {
  const kept = await keepNights(data, { anchorage: 'quiet-night' });
  await kept.live(10);
  const { lat, lon } = kept.anchor();
  await kept.keeper.feed({
    kind: 'command',
    by: 'bench',
    command: { do: 'mark', how: { lat, lon, sigma: 2 } },
  });
  await kept.live(REAL_SECONDS);
  await kept.keeper.feed({ kind: 'command', by: 'bench', command: { do: 'aweigh' } });
  await kept.stop();
  const { id } = (await kept.logbook.list()).nights[0]!;
  const record = (await kept.store.record(id))!;
  return { record, strips: await kept.store.strips(id), settings: kept.keeper.engine().settings };
}

function generate(record: NightRecord, strips: Sample[]): void {
  const text = JSON.stringify(record);
  const taken = new Set<string>();
  for (let i = 0; i < NIGHTS - 1; i++) {
    const from = FIRST + i * 86_400;
    const id = nightId(from, (one) => taken.has(one));
    taken.add(id);
    const mine = JSON.parse(text) as NightRecord;
    const { summary } = mine.night;
    Object.assign(summary, {
      id,
      from,
      to: from + HOURS * 3600,
      upTo: from + HOURS * 3600,
      place: `Bay ${i % 200}`,
    });
    summary.mark = { ...summary.mark, at: from, lat: -16 + (i % 200) * 0.02, lon: 170 + (i % 200) * 0.01 };
    mine.night.alerts = Array.from({ length: 12 }, (_, n) => ({
      id: `wind-speed.${n}`,
      kind: 'wind-speed',
      priority: 'warning',
      text: 'Wind 31 kn, limit 30 kn.',
      from: from + n * 600,
      changes: [
        {
          at: from + n * 600,
          state: 'active-unacknowledged',
          priority: 'warning',
          text: 'Wind 31 kn, limit 30 kn.',
        },
      ],
    }));
    const folder = join(data, 'nights', id);
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, 'summary.json'), JSON.stringify(mine));
    const samples = Array.from({ length: (HOURS * 3600) / STEP }, (_, n) =>
      JSON.stringify({ ...strips[n % strips.length], at: from + n * STEP }),
    );
    writeFileSync(join(folder, 'strips.jsonl'), `${samples.join('\n')}\n`);
    writeFileSync(join(folder, 'checksums.json'), '[]');
  }
  rmSync(join(data, 'nights', 'index.json'), { force: true });
  const segments = Math.ceil(BYTES / SEGMENT);
  for (let n = 0; n < segments; n++) {
    const at = FIRST + (n * NIGHTS * 86_400) / segments;
    const { base } = makeSegment(data, at, n + 1000);
    mkdirSync(join(base, '..'), { recursive: true });
    writeFileSync(`${base}.nmea`, '');
    truncateSync(`${base}.nmea`, SEGMENT);
  }
}
