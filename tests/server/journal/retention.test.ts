import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { journal as section, toPolicy } from '../../../server/config/sections/journal.ts';
import { hostDisk } from '../../../server/journal/disk.ts';
import { openJournal } from '../../../server/journal/journal.ts';
import { journalInputs } from '../../../server/journal/read.ts';
import { outlived, POLICY } from '../../../server/journal/retention.ts';
import { listSegments } from '../../../server/journal/segments.ts';
import { tidy } from '../../../server/journal/tidy.ts';
import type { Input } from '../../../shared/input.ts';
import { faultyDisk } from './faulty-disk.ts';

const T = 1_700_000_000;
const HOUR = 3600;
const DAY = 86_400;
const ALWAYS = () => true;
const KEEP_ALL = { keepSeconds: 1e9, keepBytes: 1e12, leastFree: 0, packAfter: 1e9 };
const NOW = { now: T + 100 * DAY, keepFrom: Number.POSITIVE_INFINITY, free: 1e12 };

let data: string;
beforeEach(async () => {
  data = await mkdtemp(join(tmpdir(), 'hawse-retention-'));
});
afterEach(() => rm(data, { recursive: true, force: true }));

/** A segment an hour with a line a minute and an act. */
async function written(hours: number): Promise<Input[]> {
  const journal = await openJournal(data, { onfault: expect.unreachable, onrecovered: () => undefined });
  const all: Input[] = [];
  for (let i = 0; i < hours * 60; i++) {
    const line: Input = { kind: 'line', at: T + i * 60, source: 'a', text: `$SDDPT,${i}` };
    all.push(line);
    journal.line(line);
    if (i % 30 !== 7) continue;
    const act: Input = { kind: 'command', at: T + i * 60 + 1, by: 'Mia', command: { do: 'aweigh' } };
    all.push(act);
    await journal.act(act);
  }
  await journal.close();
  return all;
}
async function readAll(from?: number, to?: number, notes: string[] = []): Promise<Input[]> {
  const all: Input[] = [];
  for await (const input of journalInputs(data, from, to, (note) => notes.push(note))) all.push(input);
  return all;
}
const names = () =>
  readdirSync(join(data, 'journal'), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.includes('.'))
    .map((name) => basename(name).replace(/^\d+-/, ''))
    .sort();

describe('what has to go', () => {
  const segments = Array.from({ length: 10 }, (_, i) => ({
    start: T + i * DAY,
    end: T + (i + 1) * DAY,
    bytes: 100,
  }));
  const gone = (policy: object, present: object) =>
    outlived(segments, { ...KEEP_ALL, ...policy }, { ...NOW, ...present }).map(({ segment, why }) => [
      (segment.start - T) / DAY,
      why,
    ]);

  test('by age, by size, for want of room', () => {
    expect(gone({}, {})).toEqual([]);
    expect(gone({ keepSeconds: 98 * DAY }, {})).toEqual([
      [0, 'age'],
      [1, 'age'],
    ]);
    expect(gone({ keepBytes: 750 }, {})).toEqual([
      [0, 'size'],
      [1, 'size'],
      [2, 'size'],
    ]);
    expect(gone({ leastFree: 1000 }, { free: 850 })).toEqual([
      [0, 'room'],
      [1, 'room'],
    ]);
    expect(gone({ leastFree: 1000 }, { free: undefined })).toEqual([]);
  });

  test('never the present anchorage, whatever the want; nor for want of room the last week', () => {
    expect(
      gone({ keepBytes: 0, leastFree: 1e9, keepSeconds: 1 }, { keepFrom: T + 2.5 * DAY, free: 0 }),
    ).toHaveLength(2);
    expect(gone({ leastFree: 1e9 }, { free: 0 })).toEqual([
      [0, 'room'],
      [1, 'room'],
    ]);
  });

  test('a clock that nothing vouches for removes nothing by age', () => {
    expect(gone({ keepSeconds: DAY }, { now: undefined })).toEqual([]);
  });

  test('property: the last one stays, those that go are the oldest, none of the anchorage', () => {
    const number = fc.integer({ min: 0, max: 2000 });
    fc.assert(
      fc.property(number, number, number, number, fc.integer({ min: 0, max: 12 }), (a, b, c, d, kept) => {
        const policy = { keepSeconds: (a * DAY) / 20, keepBytes: b, leastFree: c, packAfter: 0 };
        const keepFrom = T + kept * DAY;
        const left = outlived(segments, policy, { now: T + 20 * DAY, keepFrom, free: d });
        expect(left.map(({ segment }) => segment)).toEqual(segments.slice(0, left.length));
        expect(left.length).toBeLessThan(segments.length);
        for (const { segment } of left) expect(segment.end).toBeLessThanOrEqual(keepFrom);
      }),
    );
  });

  test('what hawse.yaml says when it says nothing is what the daemon does when it is told nothing', () => {
    expect(toPolicy(section.parse(undefined))).toEqual(POLICY);
  });
});

describe('tidying', () => {
  test('old segments are packed, and read as before: all of them and any part', async () => {
    const all = await written(8);
    const { packed, removed, bytes, notes } = await tidy(
      data,
      hostDisk,
      { ...KEEP_ALL, packAfter: 2 * HOUR },
      NOW,
      ALWAYS,
    );
    expect([packed, removed, notes]).toEqual([5, 0, []]);
    expect(bytes).toBeGreaterThan(5000);
    expect(names().filter((name) => name === 'nmea.gz' || name.endsWith('.nmea.gz'))).toHaveLength(5);
    expect(await readAll()).toEqual(all);
    for (const from of [T + 90, T + HOUR, T + 5.5 * HOUR])
      expect(await readAll(from, from + 2 * HOUR)).toEqual(
        all.filter(({ at }) => at > from && at <= from + 2 * HOUR),
      );
    expect((await tidy(data, hostDisk, { ...KEEP_ALL, packAfter: 2 * HOUR }, NOW, ALWAYS)).packed).toBe(0);
  });

  test('a power cut between packing and removing leaves both: nothing is doubled, and the next round ends it', async () => {
    const all = await written(4);
    const { base } = (await listSegments(data))[0]!;
    writeFileSync(`${base}.nmea.gz`, gzipSync('half of'));
    expect(await readAll()).toEqual(all);
    await tidy(data, hostDisk, { ...KEEP_ALL, packAfter: HOUR }, NOW, ALWAYS);
    expect(existsSync(`${base}.nmea`)).toBe(false);
    expect(await readAll()).toEqual(all);
  });

  test('what is removed goes with all its files, packed, put aside and all, and an empty day with it', async () => {
    await written(50);
    const before = await listSegments(data);
    const { base } = before[0]!;
    writeFileSync(`${base}.nmea.bad`, 'x');
    const { removed, notes } = await tidy(
      data,
      hostDisk,
      { ...KEEP_ALL, keepSeconds: DAY },
      { ...NOW, now: T + 49 * HOUR },
      ALWAYS,
    );
    expect(removed).toBeGreaterThan(20);
    expect(await listSegments(data)).toEqual(before.slice(removed));
    expect(before[removed]!.start).toBeLessThanOrEqual(T + 25 * HOUR);
    expect(before[removed + 1]!.start).toBeGreaterThan(T + 25 * HOUR);
    expect(notes.join()).toContain('were removed for their age');
    expect(readdirSync(join(data, 'journal')).filter((name) => /^\d{4}/.test(name))).toEqual([
      '2023-11-15',
      '2023-11-16',
    ]);
  });

  test('a disk that takes nothing: no segment is lost, and it is said', async () => {
    const all = await written(4);
    const disk = faultyDisk();
    disk.faults = { replace: 'ENOSPC' };
    const { packed, notes } = await tidy(data, disk, { ...KEEP_ALL, packAfter: 0 }, NOW, ALWAYS);
    expect(packed).toBe(0);
    expect(notes).toEqual(['The log cannot be tidied: the disk is full (ENOSPC).']);
    expect(await readAll()).toEqual(all);
  });

  test('damage is put aside before it would disappear in a packed file', async () => {
    const all = await written(4);
    const { base } = (await listSegments(data))[1]!;
    const before = readFileSync(`${base}.nmea`);
    const after = Buffer.from(before);
    after.writeUInt8(after.readUInt8(8) ^ 1, 8);
    writeFileSync(`${base}.nmea`, after);
    const { notes } = await tidy(data, hostDisk, { ...KEEP_ALL, packAfter: HOUR }, NOW, ALWAYS);
    expect(notes.join()).toContain('1 damaged records');
    expect(readFileSync(`${base}.nmea.bad`)).toEqual(after);
    const told: string[] = [];
    expect(await readAll(undefined, undefined, told)).toHaveLength(all.length - 1);
    expect(told).toEqual([]);
  });
});
