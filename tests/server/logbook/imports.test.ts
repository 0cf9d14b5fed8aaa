import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { readAnchorage } from '../../../server/config/anchorage.ts';
import { commonBoat } from '../../../server/config/defaults.ts';
import { toSettings } from '../../../server/config/settings.ts';
import { importRecording, type Told } from '../../../server/importing.ts';
import { fixesOf, type TrackFix } from '../../../server/logbook/points.ts';
import { recorded as journal, logbookOf, nightStore } from '../../../server/nights.ts';
import { distanceBearing } from '../../../shared/earth/geodesic.ts';
import type { NightSummary } from '../../../shared/logbook/night.ts';
import { recorded } from '../../recorded.ts';
import { emptyData, keepNights, whole } from './keptNight.ts';

const settings = toSettings(commonBoat());

/** A new logbook with one imported night. */
async function imported(content: Buffer | string, told: Partial<Told> = {}) {
  const data = emptyData();
  const file = join(data, 'recording');
  writeFileSync(file, content);
  return importedFile(file, told, data);
}

async function importedFile(file: string, told: Partial<Told> = {}, data = emptyData()) {
  const store = await nightStore(data);
  const { summary, notes } = await importRecording(store, [file], { settings, ...told });
  return { data, store, summary, notes, logbook: await logbookOf(data, settings) };
}

async function fixes(
  store: Awaited<ReturnType<typeof nightStore>>,
  night: NightSummary,
): Promise<TrackFix[]> {
  const all: TrackFix[] = [];
  for await (const fix of fixesOf(store, journal, night, settings)) all.push(fix);
  return all;
}

async function simulated(seconds: number) {
  const kept = await keepNights(emptyData(), { anchorage: 'quiet-night' });
  await kept.live(10);
  const { lat, lon } = kept.anchor();
  await kept.keeper.feed({
    kind: 'command',
    by: 'Ann',
    command: { do: 'mark', how: { lat, lon, sigma: 2 } },
  });
  await kept.live(seconds);
  await kept.keeper.feed({ kind: 'command', by: 'Ann', command: { do: 'aweigh' } });
  await kept.stop();
  return kept;
}

describe('recordings made elsewhere', () => {
  test('exported and imported again: the same track to the centimetre, and in every format', async () => {
    const kept = await simulated(240);
    const { id } = (await kept.logbook.list()).nights[0]!;
    const before = await kept.logbook.open(id);
    const { boat, cable } = before.settings;
    const { lat, lon, sigma } = before.summary.mark;
    const again = await imported(Buffer.from(await whole(await kept.logbook.sentences(id)), 'latin1'), {
      settings: kept.keeper.engine().settings,
      anchorage: readAnchorage(
        JSON.stringify({ cable: { veered: cable.veered }, mark: { lat, lon, sigma } }),
        'test',
      ),
    });
    expect(again.summary).toMatchObject({
      id,
      origin: 'import',
      boat: boat.name,
      mark: { how: 'anchorage-file' },
    });
    expect(again.summary.to! - again.summary.from).toBeGreaterThan(239);
    const [ours, theirs] = [await fixes(kept.store, before.summary), await fixes(again.store, again.summary)];
    const known = new Map(theirs.map((fix) => [fix.at, fix]));
    // In the first minute the engine settles which instrument it listens to; the one aboard had heard them before.
    const settled = ours.filter(({ at }) => at > before.summary.from + 60);
    const compared = settled.map((fix) => distanceBearing(fix, known.get(fix.at)!).distance);
    expect(compared.length).toBeGreaterThan(150);
    expect(Math.max(...compared)).toBeLessThan(0.01);
    // And a second time out and in: not a byte of the sentences is another.
    expect(await whole(await again.logbook.sentences(id))).toBe(
      await whole(await kept.logbook.sentences(id)),
    );
    const written = await whole(await again.logbook.export(id, 'gpx'));
    const points = [...written.matchAll(/<trkpt lat="([^"]+)" lon="([^"]+)">/g)].slice(-150);
    for (const [i, [, gpxLat, gpxLon]] of points.entries()) {
      const fix = theirs[theirs.length - points.length + i]!;
      expect(distanceBearing(fix, { lat: Number(gpxLat), lon: Number(gpxLon) }).distance).toBeLessThan(0.01);
    }
  });

  test('without a mark it is found from the track, and the night says so', async () => {
    const kept = await simulated(1500);
    const { id } = (await kept.logbook.list()).nights[0]!;
    const { settings: then } = await kept.logbook.open(id);
    const text = await whole(await kept.logbook.sentences(id));
    // As another program would record it: no TAG blocks, packed.
    const bare = gzipSync(text.replace(/^\\[^\\]*\\/gm, ''));
    const found = await imported(bare, {
      settings: kept.keeper.engine().settings,
      veered: then.cable.veered!,
    });
    expect(found.summary.origin).toBe('import');
    expect(found.summary.doubts!.join()).toMatch(/found from the track/);
    expect(distanceBearing(found.summary.mark, kept.anchor()).distance).toBeLessThan(
      3 * found.summary.mark.sigma,
    );
    expect(found.summary.to! - found.summary.from).toBeGreaterThan(1200);
  }, 120_000);

  test('what cannot become a night is refused with the reason, and leaves nothing behind', async () => {
    await expect(imported('')).rejects.toThrow(/no line/);
    await expect(imported('hello\nworld\n')).rejects.toThrow(/Where the anchor lay/);
    const data = emptyData();
    mkdirSync(join(data, 'nights'));
    writeFileSync(join(data, 'noise'), Buffer.from(Array.from({ length: 5000 }, (_, i) => (i * 7919) % 256)));
    await expect(importedFile(join(data, 'noise'), {}, data)).rejects.toThrow();
    await expect((await logbookOf(data, settings)).list()).resolves.toMatchObject({ total: 0 });
  });

  test('a bus that repeated one fix for 38 minutes: the night says plainly when the data were dead', async () => {
    const file = recorded('boat-lake/lake-2014-06-27.nmea.gz');
    if (!file) return;
    // 15:12:16 UTC is where it froze (README of the recordings); its RMC then says 4612.828,N,00610.246,E on 26 June.
    const frozenAt = Date.UTC(2014, 5, 26, 15, 12, 16) / 1000;
    const mark = { lat: 46 + 12.828 / 60, lon: 6 + 10.246 / 60, at: frozenAt - 60 };
    const { summary, logbook } = await importedFile(file, {
      anchorage: readAnchorage(JSON.stringify({ cable: { veered: 30 }, mark }), 'test'),
    });
    const { gaps, strips, alerts } = await logbook.open(summary.id);
    const dead = gaps.filter(({ kind }) => kind === 'position' || kind === 'doubtful');
    const during = dead
      .filter(({ from, to }) => from < frozenAt + 2100 && (to ?? 0) > frozenAt)
      .reduce((sum, { from, to }) => sum + to! - from, 0);
    expect(during).toBeGreaterThan(1900);
    expect(summary.gaps.seconds.position).toBeGreaterThan(1900);
    expect(alerts.map(({ kind }) => kind)).toContain('position-lost');
    // No sample of that time shows a position as if it were one; wind and depth went on.
    const asleep = strips.filter(({ at }) => at > frozenAt + 60 && at < frozenAt + 1900);
    expect(asleep.length).toBeGreaterThan(40);
    expect(asleep.filter(({ lat, doubtful }) => lat !== undefined && !doubtful)).toEqual([]);
    expect(asleep.filter(({ depth }) => depth !== undefined).length).toBeGreaterThan(40);
  }, 120_000);
});
