import { spawn } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { emptyData, keepNights, whole } from './keptNight.ts';

/** The command as a person calls it; `npm test` has built it. */
function hawse(...args: string[]): Promise<{ status: number | null; stdout: string; stderr: string }> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, ['server/hawse.mjs', ...args]);
    const said = { stdout: '', stderr: '' };
    for (const stream of ['stdout', 'stderr'] as const)
      child[stream].setEncoding('utf8').on('data', (text: string) => {
        said[stream] += text;
      });
    child.on('close', (status) => resolve({ status, ...said }));
  });
}

describe('hawse export, import and replay --night', () => {
  test('a night goes out and comes in; replayed it tells the events of that night', async () => {
    const kept = await keepNights(emptyData(), { anchorage: 'quiet-night' });
    await kept.live(10);
    const { lat, lon } = kept.anchor();
    const before = kept.events.length;
    await kept.keeper.feed({ kind: 'command', by: 'Ann', command: { do: 'mark', how: { lat, lon } } });
    await kept.keeper.feed({
      kind: 'command',
      by: 'Ann',
      command: { do: 'watch', change: { circleRadius: 5 } },
    });
    await kept.live(60);
    await kept.keeper.feed({ kind: 'command', by: 'Ann', command: { do: 'aweigh' } });
    const events = kept.events.slice(before);
    await kept.stop();
    const id = '2026-11-25T2010-1';
    const night = ['--data', kept.data, '--night', id];

    expect(await hawse('export', '--data', kept.data)).toMatchObject({
      status: 0,
      stdout: expect.stringContaining(id),
    });
    const sentences = await hawse('export', ...night, '--as', 'nmea');
    expect(sentences.stdout).toBe(await whole(await kept.logbook.sentences(id)));
    const file = join(kept.data, 'night.gpx');
    expect(await hawse('export', ...night, '--as', 'gpx', '--out', file)).toMatchObject({
      status: 0,
      stdout: '',
    });
    expect(readFileSync(file, 'utf8')).toContain('</gpx>');
    expect(existsSync(`${file}.part`)).toBe(false);

    const replayed = await hawse('replay', ...night, '--jsonl');
    const lines = replayed.stdout.trimEnd().split('\n');
    expect(lines.slice(0, -1)).toEqual(events.map((event) => JSON.stringify(event)));
    expect(JSON.parse(lines.at(-1)!)).toMatchObject({ event: 'summary', alerts: { 'outside-circle': 1 } });

    const recording = join(kept.data, 'elsewhere.nmea');
    writeFileSync(recording, sentences.stdout, 'latin1');
    const anchorage = join(kept.data, 'anchorage.json');
    writeFileSync(anchorage, JSON.stringify({ cable: { veered: 30 }, mark: { lat, lon } }));
    const other = emptyData();
    const made = await hawse('import', recording, '--anchorage', anchorage, '--data', other);
    expect(made).toMatchObject({ status: 0, stdout: `${id}\n` });
    const again = await hawse('export', '--data', other, '--night', id, '--as', 'nmea');
    expect(again.stdout).toBe(sentences.stdout);

    expect(
      await hawse('export', '--data', other, '--night', '2020-01-01T0000-1', '--as', 'csv'),
    ).toMatchObject({
      status: 1,
      stdout: '',
      stderr: 'hawse: There is no night "2020-01-01T0000-1" in the logbook.\n',
    });
    const hopeless = await hawse('import', anchorage, '--data', other);
    expect(hopeless.status).toBe(1);
    expect(hopeless.stderr).toContain('anchorage file');
    expect(hopeless.stderr).not.toContain('    at ');
  }, 120_000);
});
