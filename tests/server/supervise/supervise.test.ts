import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, describe, expect, test } from 'vitest';
import type { Notify } from '../../../server/supervise/notify.ts';
import { PATIENCE, supervise } from '../../../server/supervise/supervise.ts';

const puppet = fileURLToPath(new URL('puppet.mjs', import.meta.url));
const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
let ending: (() => Promise<void>) | undefined;
afterEach(async () => {
  await ending?.();
  ending = undefined;
});

function watched(files: string[] = []) {
  const folder = mkdtempSync(join(tmpdir(), 'hawse-supervise-'));
  const tell = (name: string) => writeFileSync(join(folder, name), '');
  for (const name of files) tell(name);
  let stop: (reason: string) => void = () => {};
  const shouts: string[] = [];
  const notes: string[] = [];
  const notify: Notify = {
    watchdogMs: 150,
    tell: async (...states) => void notes.push(...states),
  };
  const code = supervise({
    argv: [process.execPath, puppet, folder],
    env: process.env,
    notify,
    shout: (text) => shouts.push(text),
    stopped: new Promise<string>((resolve) => {
      stop = resolve;
    }),
    patience: { ...PATIENCE, againMs: 20, againMostMs: 100 },
  });
  ending = async () => {
    stop('test over');
    await code;
    rmSync(folder, { recursive: true, force: true });
  };
  const read = (name: string): string[] =>
    existsSync(join(folder, name)) ? readFileSync(join(folder, name), 'utf8').trim().split('\n') : [];
  return {
    tell,
    stop,
    code,
    shouts,
    notes,
    read,
    async until(holds: () => boolean) {
      for (let i = 0; i < 1500 && !holds(); i++) await wait(20);
      expect(holds()).toBe(true);
    },
  };
}

describe('the process above the watch', () => {
  test('starts it; tells systemd when it is ready, and that it lives; stops it with a reason', async () => {
    const { notes, until, read, stop, code } = watched();
    await until(() => notes.includes('READY=1') && notes.includes('WATCHDOG=1'));
    stop('SIGTERM');
    expect(await code).toBe(0);
    expect(read('story')).toEqual(['up', 'stop: SIGTERM']);
    expect(notes).toContain('STOPPING=1');
  });

  test('a loop that stands still is noticed from outside: it shouts, runs the commands, kills and starts anew', async () => {
    const { tell, until, read, shouts } = watched();
    await until(() => read('story').length === 1);
    tell('stall');
    await until(() => read('story').length === 2);
    expect(shouts).toEqual(['hawse stands still: nobody watches. It is killed and started again.']);
    expect(read('story')[1]).toMatch(/^up after: it stood still for \d+ s and was killed$/);
    await until(() => read('horn').length === 1);
    expect(read('horn')[0]).toBe(shouts[0]);
  });

  test('one that ends by itself is started again, and the next knows why; again and again', async () => {
    const { tell, until, read, shouts } = watched();
    for (let time = 1; time <= 3; time++) {
      await until(() => read('story').length === time);
      tell('die');
    }
    await until(() => read('story').length === 4);
    expect(read('story')[3]).toBe('up after: it ended by itself (exit code 134)');
    expect(shouts).toHaveLength(3);
  });

  test('one that never came up is not tried for ever: its exit code is that of the command', async () => {
    const { code, shouts } = watched(['fail']);
    expect(await code).toBe(7);
    expect(shouts).toEqual([]);
  });

  test('one that had been up and now fails to come up is tried again', async () => {
    const { tell, until, read } = watched();
    await until(() => read('story').length === 1);
    tell('fail');
    tell('die');
    await until(() => read('story').length === 3);
    expect(read('story')[2]).toContain('exit code 7');
  });
});
