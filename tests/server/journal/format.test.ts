import { execFileSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { logbookAt } from '../../../server/commands/night.ts';
import { settingsOf } from '../../../server/commands/rehearse.ts';
import { bringUp, FORMAT, formatOf } from '../../../server/journal/format.ts';
import { anchorages } from '../../../server/simulate/anchorages.ts';
import { api, daemonAtHand, emptyFolder } from '../daemonAtHand.ts';

const settings = settingsOf(anchorages()[0]!);
const feeder = () => ({ stop: async () => undefined });
const told = (data: string) => readFileSync(join(data, 'format.json'), 'utf8');
const newer = () => {
  const data = emptyFolder();
  writeFileSync(join(data, 'format.json'), JSON.stringify({ format: FORMAT + 1, writtenBy: 'hawse 9.9.9' }));
  return data;
};

describe('the form of the data folder', () => {
  test('a folder that does not say its form is of the first, and says so after the next start', async () => {
    const data = emptyFolder();
    expect(await formatOf(data)).toBe(0);
    expect(await formatOf(join(data, 'missing'))).toBe(0);
    expect(await bringUp(data, 'hawse 0.1.0')).toBeUndefined();
    expect(JSON.parse(told(data))).toEqual({ format: FORMAT, writtenBy: 'hawse 0.1.0' });
    expect(await formatOf(data)).toBe(FORMAT);
  });

  test('an upgrade goes step by step, writes each down, and goes on where it was cut off', async () => {
    const data = emptyFolder();
    const done: number[] = [];
    let isCut = true;
    const step = (from: number) => async () => {
      if (from === 2 && isCut) throw new Error('no power');
      done.push(from);
    };
    const migrations = { 0: step(0), 1: step(1), 2: step(2) };
    expect(await bringUp(data, 'hawse 2', migrations, 3)).toContain('no power');
    expect(await formatOf(data, 3)).toBe(2);
    isCut = false;
    expect(await bringUp(data, 'hawse 2', migrations, 3)).toBeUndefined();
    expect(done).toEqual([0, 1, 2]);
    expect(await formatOf(data, 3)).toBe(3);
    await bringUp(data, 'hawse 2', migrations, 3);
    expect(done).toEqual([0, 1, 2]);
  });

  test('a damaged file says nothing about the rest: it is written anew', async () => {
    const data = emptyFolder();
    writeFileSync(join(data, 'format.json'), '\0\0\0');
    expect(await bringUp(data, 'hawse 0.1.0')).toBeUndefined();
    expect(await formatOf(data)).toBe(FORMAT);
  });

  test('a disk that takes nothing hinders no watch: it is told', async () => {
    const data = emptyFolder();
    mkdirSync(join(data, 'format.json.tmp'));
    expect(await bringUp(data, 'hawse 0.1.0')).toContain('is not brought to form 1');
  });
});

describe('a folder that a newer hawse wrote', () => {
  test('is refused in words by the daemon, and not touched', async () => {
    const data = newer();
    const before = told(data);
    await expect(daemonAtHand({ settings, feeder, data })).rejects.toThrow(
      /was written by a newer hawse \(hawse 9\.9\.9\): its form is 2, this hawse knows up to 1.*another folder/,
    );
    expect(told(data)).toBe(before);
    expect(readdirSync(data)).toEqual(['format.json']);
  });

  test('is refused by export and replay too', async () => {
    await expect(logbookAt(newer())).rejects.toThrow('written by a newer hawse');
  });
});

describe('the folder that an earlier hawse left (built of b63515b; an invented place, a mark and 25 s of sentences)', () => {
  const MARK = { lat: 42.99995949330123, lon: 7.000095586658443, at: 1795629162.374038, by: 'this computer' };
  const unpacked = () => {
    const data = emptyFolder();
    execFileSync('tar', ['-xzf', 'fixtures/form-0.tar.gz', '-C', data]);
    return data;
  };
  const journal = (data: string) => join(data, 'journal');
  const recorded = (data: string) =>
    readFileSync(join(journal(data), '2026-11-25', '175237-1.nmea'), 'latin1');
  const markAfterStart = async (data: string) => {
    const daemon = await daemonAtHand({ settings, feeder, data });
    const state = (await (await api(daemon, '/state')).json()) as { watch: { mark?: object } };
    await daemon.stop('test');
    return state.watch.mark;
  };

  test('is taken over: mark and sentences stay, nothing is put aside', async () => {
    const data = unpacked();
    const before = recorded(data);
    expect(await markAfterStart(data)).toMatchObject(MARK);
    expect(recorded(data)).toBe(before);
    expect(JSON.parse(told(data)).format).toBe(FORMAT);
    expect(
      readdirSync(data, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.bad')),
    ).toEqual([]);
  });

  test('comes back from its log alone, without the checkpoints', async () => {
    const data = unpacked();
    for (const name of readdirSync(journal(data)))
      if (name.startsWith('checkpoint')) rmSync(join(journal(data), name));
    expect(await markAfterStart(data)).toMatchObject(MARK);
  });
});

test('upgrade: the journal of a hawse that knew no form is taken over whole, mark and all', async () => {
  const data = emptyFolder();
  const first = await daemonAtHand({ settings, feeder, data });
  const mark = { lat: 43, lon: 7 };
  expect((await api(first, '/mark', 'POST', mark)).status).toBe(200);
  await first.stop('test');
  rmSync(join(data, 'format.json'));
  const second = await daemonAtHand({ settings, feeder, data });
  const state = (await (await api(second, '/state')).json()) as { watch: { mark?: object } };
  await second.stop('test');
  expect(state.watch.mark).toMatchObject(mark);
  expect(JSON.parse(told(data)).format).toBe(FORMAT);
});
