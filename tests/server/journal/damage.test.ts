import { appendFileSync, existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openJournal, type Restored } from '../../../server/journal/journal.ts';
import { journalInputs } from '../../../server/journal/read.ts';
import { actRecord } from '../../../server/journal/records.ts';
import { listSegments } from '../../../server/journal/segments.ts';
import type { Input } from '../../../shared/input.ts';

const T = 1_700_000_000;
let data: string;
beforeEach(async () => {
  data = await mkdtemp(join(tmpdir(), 'hawse-damage-'));
});
afterEach(() => rm(data, { recursive: true, force: true }));

const line = (at: number): Input & { kind: 'line' } => ({
  kind: 'line',
  at,
  source: 'a',
  text: `$SDDPT,${at - T}`,
});
const mark = (at: number): Input & { kind: 'command' } => ({
  kind: 'command',
  at,
  by: 'Mia',
  command: { do: 'mark', how: { here: true } } as never,
});
const hooks = { onfault: expect.unreachable, onrecovered: () => undefined };

async function written(seconds: number, every = 60, ...acts: (Input & { kind: 'command' })[]): Promise<void> {
  const journal = await openJournal(data, hooks);
  const waiting = [...acts];
  for (let at = T; at < T + seconds; at += every) {
    while (waiting[0] && waiting[0].at < at) await journal.act(waiting.shift()!);
    journal.line(line(at));
    if ((at - T) % 3600 === 0)
      await journal.act({ kind: 'link', at: at + 0.5, source: 'a', up: true, detail: 'up' });
  }
  await journal.close();
}
/** A restart; `all`: what the journal holds after it, `stepped`: what the engine is given. */
async function restored(): Promise<Restored & { all: Input[]; stepped: Input[] }> {
  const journal = await openJournal(data, hooks);
  const found = await journal.restore();
  const stepped: Input[] = [];
  for await (const input of found.inputs) stepped.push(input);
  const all: Input[] = [];
  for await (const input of journalInputs(data)) all.push(input);
  await journal.close();
  return { ...found, all, stepped };
}

describe('a damaged segment', () => {
  test('is put aside as it is; its good records stay in its place, and the next start has nothing to say', async () => {
    await written(7000);
    const { base } = (await listSegments(data))[0]!;
    const text = readFileSync(`${base}.nmea`, 'latin1');
    const spoilt = text
      .replace('$SDDPT,120\n', '$SDDPT,120\x00\x01\n')
      .replace('c:1700000300', 'c:17\x80\x800300');
    writeFileSync(`${base}.nmea`, spoilt, 'latin1');
    const first = await restored();
    expect(first.notes.join()).toContain(`${base}.nmea: 1 damaged records; it is put aside`);
    expect(readFileSync(`${base}.nmea.bad`, 'latin1')).toBe(spoilt);
    expect(first.all.filter(({ kind }) => kind === 'line')).toHaveLength(116);
    const second = await restored();
    expect(second.notes).toEqual([]);
    expect(second.all).toEqual(first.all);
  });

  test('of which nothing can be read is put aside whole; the others are read', async () => {
    await written(3 * 3600);
    const { base } = (await listSegments(data))[1]!;
    writeFileSync(`${base}.nmea`, Buffer.alloc(40_000, 0xff));
    appendFileSync(`${base}.nmea`, '\n');
    const { notes, all } = await restored();
    expect(notes.join()).toContain('cannot be read');
    expect(existsSync(`${base}.nmea`)).toBe(false);
    expect(all.filter(({ kind }) => kind === 'line')).toHaveLength(120);
    expect((await restored()).notes.join()).not.toContain('cannot be read');
  });

  test('a packed one that cannot be unpacked is put aside too', async () => {
    await written(3600 * 2);
    const { base } = (await listSegments(data))[0]!;
    rmSync(`${base}.nmea`);
    writeFileSync(`${base}.nmea.gz`, 'this is no gzip');
    const { notes, all } = await restored();
    expect(notes.join()).toContain(`put aside as ${base}.nmea.gz.bad`);
    expect(all.filter(({ kind }) => kind === 'line')).toHaveLength(59);
  });

  test('one false time does not take away what follows it, in the middle or at the end of a segment', async () => {
    await written(2 * 3600);
    const [first] = await listSegments(data);
    const path = `${first!.base}.acts.jsonl`;
    writeFileSync(path, readFileSync(path, 'utf8') + actRecord(mark(T + 8e8) as never));
    const lines = `${first!.base}.nmea`;
    const tooLate = readFileSync(lines, 'latin1').split('\n');
    tooLate.splice(20, 1, tooLate[59]!);
    writeFileSync(lines, tooLate.join('\n'), 'latin1');
    const { all } = await restored();
    expect(all.filter(({ kind }) => kind === 'line')).toHaveLength(119);
    expect(all.at(-1)!.at).toBe(T + 7140);
  });
});

describe('a start without checkpoint', () => {
  test('does not step through everything: what people told at this anchorage, and the last hour; this is said', async () => {
    await written(
      30 * 3600,
      10,
      mark(T + 3605.5),
      { ...mark(T + 50_000.5), command: { do: 'aweigh' } },
      mark(T + 80_000.5),
    );
    const { stepped: all, notes } = await restored();
    expect(notes.join()).toContain('30 h older than the journal');
    const commands = all.flatMap((input) =>
      input.kind === 'command' ? [[input.at - T, input.command.do]] : [],
    );
    expect(commands).toEqual([
      [50_000.5, 'aweigh'],
      [80_000.5, 'mark'],
    ]);
    const lines = all.filter(({ kind }) => kind === 'line').map(({ at }) => at - T);
    expect(lines.slice(0, 7)).toEqual([79_950, 79_960, 79_970, 79_980, 79_990, 80_000, 30 * 3600 - 3600]);
    expect(lines).toHaveLength(6 + 360);
    for (let i = 1; i < all.length; i++) expect(all[i]!.at).toBeGreaterThan(all[i - 1]!.at);
  });

  test('a checkpoint that the engine cannot live with is put aside, and the one before is used', async () => {
    const journal = await openJournal(data, hooks);
    await journal.checkpoint({ good: true }, T);
    await journal.checkpoint({ good: false }, T + 60);
    const { state, notes } = await journal.restore((found) => {
      if (!(found as { good: boolean }).good) throw new Error('no vessel in it');
    });
    await journal.close();
    expect(state).toEqual({ good: true });
    expect(notes.join()).toContain('no vessel in it');
    expect(readdirSync(join(data, 'journal')).filter((name) => name.endsWith('.bad'))).toHaveLength(1);
  });
});
