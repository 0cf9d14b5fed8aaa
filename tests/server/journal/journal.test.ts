import { appendFileSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, describe, expect, test } from 'vitest';
import { recordedLines } from '../../../server/intake/recorded.ts';
import { type Journal, type JournalOptions, openJournal } from '../../../server/journal/journal.ts';
import { journalInputs, latestTime } from '../../../server/journal/read.ts';
import {
  type Act,
  actRecord,
  type LineInput,
  lineRecord,
  readActRecord,
  readLineRecord,
} from '../../../server/journal/records.ts';
import { listSegments } from '../../../server/journal/segments.ts';
import type { Input } from '../../../shared/input.ts';
import { faultyDisk } from './faulty-disk.ts';

const T = 1_700_000_000; // 2023-11-14 22:13:20 UTC
const folders: string[] = [];
const open: Journal[] = [];
afterEach(async () => {
  for (const journal of open.splice(0)) await journal.close();
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});
const newFolder = () => {
  const folder = mkdtempSync(join(tmpdir(), 'hawse-journal-'));
  folders.push(folder);
  return folder;
};

interface Opened {
  journal: Journal;
  faults: string[];
  /** Resolves when `faults` has as many entries. */
  told(count: number): Promise<void>;
}
async function opened(data: string, options: JournalOptions = {}): Promise<Opened> {
  const faults: string[] = [];
  let check = () => {};
  const tell = (text: string) => {
    faults.push(text);
    check();
  };
  const journal = await openJournal(
    data,
    { onfault: tell, onrecovered: () => tell('recovered') },
    { retry: 10, ...options },
  );
  open.push(journal);
  return {
    journal,
    faults,
    told: (count) =>
      new Promise((resolve) => {
        check = () => {
          if (faults.length >= count) resolve();
        };
        check();
      }),
  };
}
const line = (at: number, text = `$SDDPT,${at},0.4`, source = 'udp1'): LineInput => ({
  kind: 'line',
  at,
  source,
  text,
});
const signal = (at: number, word = 'stop'): Act => ({
  kind: 'command',
  at,
  by: 'Mia ⚓',
  command: { do: 'signal', signal: word },
});
async function collect(inputs: AsyncIterable<Input>): Promise<Input[]> {
  const all: Input[] = [];
  for await (const input of inputs) all.push(input);
  return all;
}
const keep = (journal: Journal, input: LineInput | Act): Promise<void> | undefined =>
  input.kind === 'line' ? void journal.line(input) : journal.act(input);
const fileNames = (data: string) =>
  readdirSync(join(data, 'journal'), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.includes('.'))
    .sort();

describe('records', () => {
  const at = fc.integer({ min: 0, max: 4e15 }).map((micro) => micro / 1e6);
  const text = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 90 }),
    fc
      .array(fc.integer({ min: 0, max: 255 }), { maxLength: 90 })
      .map((bytes) => String.fromCharCode(...bytes)),
    fc.constantFrom('', ' ', '\\', '\\s:a,c:1*00\\$X', '$GPRMC,1*00', '*', '\\\\', '\r', '\x00\xff'),
  );
  const source = fc.oneof(fc.constantFrom('udp1', 'serial-2', 'a,b', ''), fc.string({ maxLength: 15 }));

  test('property: a line comes back from its record to the byte, or is not recorded as a sentence', () => {
    let recorded = 0;
    fc.assert(
      fc.property(at, source, text, (time, name, words) => {
        const input = line(time, words, name);
        const record = lineRecord(input);
        if (record === undefined) return;
        recorded++;
        expect(record.endsWith('\n')).toBe(true);
        const disk = Buffer.from(record, 'latin1').toString('latin1').slice(0, -1);
        expect(readLineRecord(disk)).toEqual(input);
      }),
      { numRuns: 2000 },
    );
    expect(recorded).toBeGreaterThan(200);
  });

  test('property: every time of the timeline, whole microseconds, is recordable', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 4e15 }), (micro) => {
        const record = lineRecord(line(Math.round(micro) / 1e6))!;
        expect(readLineRecord(record.slice(0, -1))!.at).toBe(micro / 1e6);
      }),
    );
  });

  test('property: anything else comes back from JSON', () => {
    fc.assert(
      fc.property(at, text, text, (time, by, word) => {
        const input: Act = { kind: 'command', at: time, by, command: { do: 'signal', signal: word } };
        const record = actRecord(input);
        expect(record.indexOf('\n')).toBe(record.length - 1);
        expect(readActRecord(Buffer.from(record, 'utf8').toString('utf8'))).toEqual(input);
      }),
    );
  });

  test('damaged records are no inputs', () => {
    const good = lineRecord(line(T))!.slice(0, -1);
    expect(readLineRecord(good)).toBeDefined();
    for (const bad of ['', '$X', good.replace('udp1', 'udp2'), '\\c:1*00\\$X', '\x00'.repeat(40)])
      expect(readLineRecord(bad)).toBeUndefined();
    for (const bad of ['', '{', '{}', 'null', '7', '{"at":"x","kind":"link"}', '{"at":1,"kind":"tick"}'])
      expect(readActRecord(bad)).toBeUndefined();
  });
});

describe('what is kept', () => {
  test('comes back in order, each kind as it was, in the promised files', async () => {
    const data = newFolder();
    const { journal, faults } = await opened(data);
    const inputs: (LineInput | Act)[] = [
      { kind: 'link', at: T + 0.1, source: 'udp1', up: true, detail: 'listening' },
      line(T + 0.2),
      line(T + 0.200001, '\\s:gw,c:5*00\\$GPRMC,,V*00'),
      signal(T + 0.3),
      line(T + 0.4, '\x00\xff noise '),
      { kind: 'fault', at: T + 0.5, alert: 'disk', raised: true, priority: 'alarm', text: 'full' },
      line(T + 0.6, 'two\nlines are one input', 'odd,source'),
      line(T + 0.7),
    ];
    await Promise.all(inputs.map((input) => keep(journal, input)));
    await journal.close();
    expect(await collect(journalInputs(data))).toEqual(inputs);
    expect(fileNames(data)).toEqual(['2023-11-14/221320-1.acts.jsonl', '2023-11-14/221320-1.nmea']);
    expect(readFileSync(join(data, 'journal/2023-11-14/221320-1.nmea'), 'latin1').split('\n')[0]).toMatch(
      /^\\s:udp1,c:1700000000\.200\*[0-9A-F]{2}\\\$SDDPT,1700000000\.2,0\.4$/,
    );
    expect(readFileSync(join(data, 'journal/2023-11-14/221320-1.acts.jsonl'), 'utf8').split('\n')[1]).toBe(
      '{"at":1700000000.3,"kind":"command","by":"Mia ⚓","command":{"do":"signal","signal":"stop"}}',
    );
    expect(faults).toEqual([]);
  });

  test('is an ordinary recording: a segment read as recorded sentences gives the same lines', async () => {
    const data = newFolder();
    const { journal } = await opened(data);
    const texts = ['$A*00', '\\s:gw,c:5*00\\$B*00', '\x80\xff', 'noise', '\\', '$C'];
    for (const [i, text] of texts.entries()) journal.line(line(T + i / 8, text, `in${i % 2}`));
    await journal.close();
    const [segment] = await listSegments(data);
    const read = [];
    for await (const batch of recordedLines([`${segment!.base}.nmea`]).lines) read.push(...batch);
    expect(read).toEqual(texts.map((text, i) => ({ at: T + i / 8, source: `in${i % 2}`, text })));
  });

  test('a part of it: after one time, up to and with another, across segments', async () => {
    const data = newFolder();
    const { journal } = await opened(data);
    const all: Input[] = [];
    for (let i = 0; i < 12; i++) {
      const at = T + i * 1000 + 0.5;
      const input = i % 3 === 2 ? signal(at) : line(at);
      all.push(input);
      await keep(journal, input);
      await journal.act(signal(at + 1));
      all.push(signal(at + 1));
    }
    await journal.close();
    expect(await listSegments(data)).toHaveLength(3);
    for (const from of all.map(({ at }) => at))
      expect(await collect(journalInputs(data, from))).toEqual(all.filter(({ at }) => at > from));
    expect(await collect(journalInputs(data, T + 2000, T + 6000.5))).toEqual(
      all.filter(({ at }) => at > T + 2000 && at <= T + 6000.5),
    );
    expect(await latestTime(data)).toBe(all.at(-1)!.at);
  });

  test('a segment ends after an hour of its timeline, over midnight into the folder of the new day, or at 8 MB', async () => {
    const data = newFolder();
    const { journal } = await opened(data);
    for (const at of [T, T + 3599, T + 3600, T + 7300]) await journal.act(signal(at));
    const long = 'x'.repeat(400);
    for (let i = 1; i <= 20_000; i++) journal.line(line(T + 7300 + i / 1000, long));
    await journal.act(signal(T + 7330));
    for (let i = 1; i <= 100; i++) journal.line(line(T + 7330 + i / 1000, long));
    await journal.close();
    expect((await listSegments(data)).map(({ base }) => base.split('/').slice(-2).join('/'))).toEqual([
      '2023-11-14/221320-1',
      '2023-11-14/231320-2',
      '2023-11-15/001500-3',
      '2023-11-15/001530-4',
    ]);
    expect((await collect(journalInputs(data))).length).toBe(20_105);
  });

  test('every start opens a segment of its own, numbered on', async () => {
    const data = newFolder();
    for (let i = 0; i < 3; i++) {
      const { journal } = await opened(data);
      await journal.act(signal(T + i / 4));
      await journal.close();
    }
    expect((await listSegments(data)).map(({ number }) => number)).toEqual([1, 2, 3]);
    expect((await collect(journalInputs(data))).map(({ at }) => at)).toEqual([T, T + 0.25, T + 0.5]);
  });

  test('an act is not confirmed before the lines that came before it are safe too', async () => {
    const data = newFolder();
    const disk = faultyDisk();
    const { journal } = await opened(data, { disk });
    journal.line(line(T));
    await journal.act(signal(T + 1));
    expect(disk.calls.sync).toBeGreaterThanOrEqual(2);
    disk.faults = { sync: 'EIO' };
    journal.line(line(T + 2));
    await expect(journal.act(signal(T + 3))).rejects.toThrow('the disk fails (EIO)');
    disk.mend();
  });

  test('lines alone are synced too, in a second or so, not one by one', async () => {
    const data = newFolder();
    const disk = faultyDisk();
    const { journal } = await opened(data, { disk });
    for (let i = 0; i < 50; i++) {
      journal.line(line(T + i / 100));
      await new Promise((resolve) => setTimeout(resolve, 4));
    }
    expect(disk.calls.sync).toBeLessThan(10);
    expect(await collect(journalInputs(data))).toHaveLength(50);
    while (disk.calls.sync === 0) await new Promise((resolve) => setTimeout(resolve, 20));
  });

  test('an empty journal: no state, no inputs, no latest time', async () => {
    const data = newFolder();
    expect(await latestTime(data)).toBeUndefined();
    const { journal } = await opened(data);
    const { state, at, inputs } = await journal.restore();
    expect([state, at, await collect(inputs)]).toEqual([undefined, undefined, []]);
    expect(await journal.freeBytes()).toBeGreaterThan(0);
  });

  test('a data folder that cannot be had is an error at the start', async () => {
    const data = newFolder();
    writeFileSync(join(data, 'journal'), 'in the way');
    await expect(opened(data)).rejects.toThrow(/EEXIST/);
  });
});

describe('checkpoints', () => {
  async function withCheckpoints(...ats: number[]) {
    const data = newFolder();
    const { journal } = await opened(data);
    for (const at of ats) {
      journal.line(line(at - 0.5));
      await journal.checkpoint({ at, mark: { lat: -16.5 } }, at);
    }
    journal.line(line(ats.at(-1)! + 1));
    await journal.close();
    return data;
  }
  const files = (data: string) => fileNames(data).filter((name) => name.startsWith('checkpoint'));

  test('the newest gives the state, and only the inputs after it; the last two are kept, and the first of each of the last two hours', async () => {
    const data = await withCheckpoints(T - 9000, T - 8000, T - 3600, T - 3500, T + 1, T + 2, T + 3);
    expect(files(data)).toEqual([T - 3600, T + 1, T + 2, T + 3].map((at) => `checkpoint-${at}.000000.json`));
    const { state, at, inputs, notes } = await (await opened(data)).journal.restore();
    expect(state).toEqual({ at: T + 3, mark: { lat: -16.5 } });
    expect(at).toBe(T + 3);
    expect(await collect(inputs)).toEqual([line(T + 4)]);
    expect(notes).toEqual([]);
  });

  test('the state is that of the call, whatever happens to it while it is written', async () => {
    const data = newFolder();
    const { journal } = await opened(data);
    const state = { n: 1 };
    const done = journal.checkpoint(state, T);
    state.n = 2;
    await done;
    expect((await journal.restore()).state).toEqual({ n: 1 });
  });

  test.each([
    ['one digit changed', (text: string) => text.replace('-16.5', '-16.6')],
    ['cut off', (text: string) => text.slice(0, text.length >> 1)],
    ['empty', () => ''],
    ['zeros', (text: string) => '\x00'.repeat(text.length)],
  ])(
    'a damaged one (%s) is put aside and told; the one before is used with the inputs since',
    async (_, damage) => {
      const data = await withCheckpoints(T + 1, T + 2, T + 3);
      const newest = join(data, 'journal', files(data).at(-1)!);
      writeFileSync(newest, damage(readFileSync(newest, 'utf8')));
      const { at, inputs, notes } = await (await opened(data)).journal.restore();
      expect(at).toBe(T + 2);
      expect((await collect(inputs)).map((input) => input.at)).toEqual([T + 2.5, T + 4]);
      expect(notes.join()).toContain('is damaged');
      expect(files(data)).toEqual([
        'checkpoint-1700000001.000000.json',
        'checkpoint-1700000002.000000.json',
        'checkpoint-1700000003.000000.json.bad',
      ]);
    },
  );

  test('one that was being written when the process ended is cleared away', async () => {
    const data = await withCheckpoints(T + 1);
    writeFileSync(join(data, 'journal', `checkpoint-${T + 2}.000000.json.tmp`), 'half');
    const { at, notes } = await (await opened(data)).journal.restore();
    expect([at, notes]).toEqual([T + 1, []]);
    expect(files(data)).toEqual(['checkpoint-1700000001.000000.json']);
  });

  test('none that can be read: all the inputs from the beginning', async () => {
    const data = await withCheckpoints(T + 1, T + 2);
    for (const name of files(data)) writeFileSync(join(data, 'journal', name), 'x');
    const { state, inputs } = await (await opened(data)).journal.restore();
    expect(state).toBeUndefined();
    expect(await collect(inputs)).toHaveLength(3);
  });

  test('the latest time is that of a checkpoint when nothing came after it', async () => {
    const data = newFolder();
    const { journal } = await opened(data);
    journal.line(line(T));
    await journal.checkpoint({}, T + 60.25);
    expect(await latestTime(data)).toBe(T + 60.25);
  });

  test('a disk that does not take it is told, the older ones stay, and the next success ends the fault', async () => {
    const data = await withCheckpoints(T + 1, T + 2);
    const disk = faultyDisk();
    const { journal, faults } = await opened(data, { disk });
    disk.faults = { replace: 'ENOSPC' };
    await journal.checkpoint({}, T + 5);
    expect(faults).toEqual(['the disk is full (ENOSPC)']);
    expect(files(data)).toHaveLength(2);
    disk.mend();
    await journal.checkpoint({}, T + 6);
    expect(faults).toEqual(['the disk is full (ENOSPC)', 'recovered']);
    expect(await latestTime(data)).toBe(T + 6);
  });
});

describe('what a power cut or a bad disk leaves', () => {
  test('a record that was not finished is dropped, told and taken off both files', async () => {
    const data = newFolder();
    const { journal } = await opened(data);
    journal.line(line(T));
    await journal.act(signal(T + 1));
    await journal.close();
    const { base } = (await listSegments(data))[0]!;
    const before = [`${base}.nmea`, `${base}.acts.jsonl`].map((path) => readFileSync(path, 'latin1'));
    appendFileSync(`${base}.nmea`, '\\s:udp1,c:17000');
    appendFileSync(`${base}.acts.jsonl`, '{"at":1700000002,"kind":"comm');
    expect(await collect(journalInputs(data))).toEqual([line(T), signal(T + 1)]);
    const { inputs, notes } = await (await opened(data)).journal.restore();
    expect(await collect(inputs)).toEqual([line(T), signal(T + 1)]);
    expect(notes).toHaveLength(2);
    expect([`${base}.nmea`, `${base}.acts.jsonl`].map((path) => readFileSync(path, 'latin1'))).toEqual(
      before,
    );
  });

  test('damage in the middle costs the damaged records alone, and is told', async () => {
    const data = newFolder();
    const { journal } = await opened(data);
    for (let i = 0; i < 5; i++) {
      journal.line(line(T + i));
      await journal.act(signal(T + i + 0.5, `s${i}`));
    }
    await journal.close();
    const { base } = (await listSegments(data))[0]!;
    const spoil = (path: string, from: string, to: string) =>
      writeFileSync(path, readFileSync(path, 'latin1').replace(from, to), 'latin1');
    spoil(`${base}.nmea`, 'c:1700000002.000', 'c:1700000007.000');
    spoil(`${base}.acts.jsonl`, '"signal":"s3"', '"signal":s3"');
    const notes: string[] = [];
    const inputs = await collect(journalInputs(data, undefined, undefined, (note) => notes.push(note)));
    expect(inputs.map(({ at }) => at - T)).toEqual([0, 0.5, 1, 1.5, 2.5, 3, 4, 4.5]);
    expect(notes).toHaveLength(2);
    expect(notes.join()).toContain('1 records are damaged');
  });

  test('inputs that are out of order are left out and told: the engine would not take them', async () => {
    const data = newFolder();
    for (const at of [T + 10, T + 5, T + 20]) {
      const { journal } = await opened(data);
      await journal.act(signal(at));
      await journal.close();
    }
    const base = (await listSegments(data)).at(-1)!.base;
    appendFileSync(`${base}.acts.jsonl`, actRecord(signal(T + 7)));
    const notes: string[] = [];
    const inputs = await collect(journalInputs(data, undefined, undefined, (note) => notes.push(note)));
    expect(inputs.map(({ at }) => at - T)).toEqual([5, 10, 20]);
    expect(notes.join()).toContain('1 records are damaged');
  });

  test('other files in the folder are left alone', async () => {
    const data = newFolder();
    const { journal } = await opened(data);
    await journal.act(signal(T));
    for (const name of ['notes.txt', '2023-11-14/photo.jpg', '2023-11-14/221320-1.nmea.bak'])
      writeFileSync(join(data, 'journal', name), 'mine');
    expect(await collect(journalInputs(data))).toEqual([signal(T)]);
  });
});

describe('a disk that fails', () => {
  test.each([
    ['open', 'EROFS', 'the disk is read-only (EROFS)'],
    ['write', 'ENOSPC', 'the disk is full (ENOSPC)'],
    ['write', 'half', 'the disk is full (ENOSPC)'],
    ['sync', 'EIO', 'the disk fails (EIO)'],
  ])(
    '%s gives %s: told once, acts are refused for now, nothing is lost when it works again',
    async (call, code, words) => {
      const data = newFolder();
      const disk = faultyDisk();
      const { journal, faults, told } = await opened(data, { disk });
      const all: Input[] = [];
      const kept = (input: LineInput | Act) => {
        all.push(input);
        return keep(journal, input);
      };
      if (call !== 'open') {
        void kept(line(T));
        await kept(signal(T + 1));
      }
      disk.faults = { [call]: code };
      void kept(line(T + 2));
      await expect(kept(signal(T + 3))).rejects.toThrow(words);
      void kept(line(T + 4));
      await expect(kept(signal(T + 5))).rejects.toThrow(words);
      expect(faults).toEqual([words]);
      disk.mend();
      await told(2);
      expect(faults).toEqual([words, 'recovered']);
      await kept(signal(T + 6));
      await journal.close();
      expect(await collect(journalInputs(data))).toEqual(all);
    },
  );

  test('faults that come and go at every call: what was confirmed is there, and in the end all of it', async () => {
    const data = newFolder();
    const disk = faultyDisk();
    const { journal } = await opened(data, { disk, retry: 1 });
    const all: Input[] = [];
    let confirmed = 0;
    const pattern = ['open', 'write', 'sync', undefined, 'sync', 'half', undefined, 'write'] as const;
    for (let i = 0; i < 300; i++) {
      const fault = pattern[(i * 5) % pattern.length];
      if (fault === undefined) disk.mend();
      else disk.faults = fault === 'half' ? { write: 'half' } : { [fault]: 'EIO' };
      const at = T + i * 30;
      const input = i % 3 === 0 ? signal(at) : line(at);
      all.push(input);
      const isConfirmed = await keep(journal, input)?.then(
        () => true,
        () => false,
      );
      if (!isConfirmed) continue;
      confirmed++;
      expect(await collect(journalInputs(data))).toEqual(all);
    }
    expect(confirmed).toBeGreaterThan(15);
    disk.mend();
    await journal.act(signal(T + 20_000));
    await journal.close();
    expect(await collect(journalInputs(data))).toEqual([...all, signal(T + 20_000)]);
  });

  test('a disk that gives no answer is a fault too, and acts do not wait for ever', async () => {
    const data = newFolder();
    const disk = faultyDisk();
    const { journal, faults, told } = await opened(data, { disk, patience: 500 });
    await journal.act(signal(T));
    disk.faults = { write: 'hang' };
    const act = journal.act(signal(T + 1));
    await expect(act).rejects.toThrow('the disk has not answered for 0.5 s');
    expect(faults).toHaveLength(1);
    disk.mend();
    await told(2);
    await journal.close();
    expect((await collect(journalInputs(data))).map(({ at }) => at)).toEqual([T, T + 1]);
  });

  test('memory for what waits is bounded; that sentences are lost is told, once', async () => {
    const data = newFolder();
    const disk = faultyDisk();
    const { journal, faults, told } = await opened(data, { disk, backlog: 10_000 });
    disk.faults = { write: 'ENOSPC' };
    await expect(journal.act(signal(T))).rejects.toThrow();
    for (let i = 1; i < 1000; i++) journal.line(line(T + i));
    await told(2);
    expect(faults[1]).toContain('sentences are lost');
    disk.mend();
    await told(3);
    await journal.act(signal(T + 2000));
    await journal.close();
    expect(faults.slice(2)).toEqual(['recovered']);
    const at = (await collect(journalInputs(data))).map((input) => input.at - T);
    expect(at[0]).toBe(0);
    expect(at.at(-1)).toBe(2000);
    expect(at.length).toBeGreaterThan(50);
    expect(at.length).toBeLessThan(400);
    expect(at.slice(0, -1)).toEqual(at.slice(0, -1).map((_, i) => i));
  });

  test('closing does not wait for ever on a disk that fails', async () => {
    const data = newFolder();
    const disk = faultyDisk();
    const { journal } = await opened(data, { disk, patience: 100 });
    disk.faults = { write: 'ENOSPC' };
    journal.line(line(T));
    await journal.close();
    const hung = await opened(data, { disk, patience: 100 });
    disk.faults = { write: 'hang' };
    hung.journal.line(line(T));
    await hung.journal.close();
    disk.mend();
  });
});
