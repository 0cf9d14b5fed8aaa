import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { takeLock } from '../../../server/journal/lock.ts';

let data: string;
beforeEach(async () => {
  data = await mkdtemp(join(tmpdir(), 'hawse-lock-'));
});
afterEach(() => rm(data, { recursive: true, force: true }));
const path = () => join(data, 'lock');
const left = (pid: number, began: string) => writeFileSync(path(), JSON.stringify({ pid, began }));

describe('the lock of a data folder', () => {
  test('is had by one, refused to a second in words, and free again when it is let go', async () => {
    const first = await takeLock(data, 0);
    expect(first).toMatchObject({ wasLeft: false });
    await expect(takeLock(data, 0)).rejects.toThrow(
      `another hawse (process ${process.pid}) keeps its watch in ${data}`,
    );
    await first.release();
    expect(existsSync(path())).toBe(false);
    expect((await takeLock(data, 0)).wasLeft).toBe(false);
  });

  test('whoever is on the way out is waited for', async () => {
    const first = await takeLock(data, 0);
    setTimeout(() => void first.release(), 250);
    await (await takeLock(data, 10_000)).release();
  });

  test('what a dead process left is taken over; that it died is told', async () => {
    const child = spawn(process.execPath, ['-e', 'setTimeout(() => {}, 60_000)']);
    await once(child, 'spawn');
    left(child.pid!, '');
    await expect(takeLock(data, 0)).rejects.toThrow(`process ${child.pid}`);
    child.kill('SIGKILL');
    await once(child, 'exit');
    expect((await takeLock(data, 0)).wasLeft).toBe(true);
    expect(JSON.parse(readFileSync(path(), 'utf8')).pid).toBe(process.pid);
  });

  test.runIf(existsSync('/proc/self/stat'))(
    'a number that was given to another process since is no holder',
    async () => {
      left(process.pid, 'another start of the computer 12345');
      expect((await takeLock(data, 0)).wasLeft).toBe(true);
    },
  );

  test.each(['', '{"pid":', '{"pid":-1,"began":"x"}', '\x00\x00\x00'])(
    'a damaged one (%j) is nobody’s',
    async (text) => {
      writeFileSync(path(), text);
      expect((await takeLock(data, 0)).wasLeft).toBe(true);
    },
  );

  test('of many that find the same dead holder one gets it', async () => {
    left(2 ** 22 + 1, 'gone long ago');
    const tries = await Promise.allSettled(Array.from({ length: 12 }, () => takeLock(data, 0)));
    expect(tries.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
  });

  test('only its owner lets it go', async () => {
    const mine = await takeLock(data, 0);
    left(1, 'somebody else');
    await mine.release();
    expect(existsSync(path())).toBe(true);
  });

  test('a folder that takes no file is no reason not to watch', async () => {
    const lock = await takeLock(join(data, 'not there'), 0);
    expect(lock.trouble).toContain('ENOENT');
    await lock.release();
  });
});
