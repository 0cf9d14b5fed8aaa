import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { createNotify } from '../../../server/supervise/notify.ts';

const has = (program: string): boolean => spawnSync(program, ['--version']).error === undefined;
const canHear = has('socat') && has('systemd-notify');

test('without NOTIFY_SOCKET nothing happens, and no watchdog is fed', async () => {
  const remarks: string[] = [];
  const notify = createNotify({ WATCHDOG_USEC: '1000000' }, (text) => remarks.push(text));
  await notify.tell('READY=1');
  expect([notify.watchdogMs, remarks]).toEqual([undefined, []]);
});

test('a program that is not there is remarked once, and is no fault', async () => {
  const remarks: string[] = [];
  const notify = createNotify({ NOTIFY_SOCKET: '/nowhere', PATH: '/nowhere' }, (text) => remarks.push(text));
  await notify.tell('READY=1');
  await notify.tell('WATCHDOG=1');
  expect(remarks).toHaveLength(1);
});

test('the watchdog of another process is not ours', () => {
  const env = { NOTIFY_SOCKET: '/x', WATCHDOG_USEC: '30000000' };
  expect(createNotify(env, () => {}).watchdogMs).toBe(30_000);
  expect(createNotify({ ...env, WATCHDOG_PID: '1' }, () => {}).watchdogMs).toBeUndefined();
  expect(createNotify({ ...env, WATCHDOG_PID: `${process.pid}` }, () => {}).watchdogMs).toBe(30_000);
});

test('systemd hears it on its socket', async () => {
  if (!canHear) {
    console.log('NOT TESTED: sd_notify (socat or systemd-notify is not here)');
    return;
  }
  const folder = mkdtempSync(join(tmpdir(), 'hawse-notify-'));
  const socket = join(folder, 'notify');
  const ear = spawn('socat', ['-u', `UNIX-RECV:${socket}`, '-'], { stdio: ['ignore', 'pipe', 'ignore'] });
  let heard = '';
  ear.stdout.on('data', (text) => {
    heard += text;
  });
  for (let i = 0; i < 200 && !existsSync(socket); i++)
    await new Promise((resolve) => setTimeout(resolve, 20));
  const notify = createNotify({ ...process.env, NOTIFY_SOCKET: socket }, expect.unreachable);
  const telling = notify.tell('READY=1', 'STATUS=The anchor watch is kept.');
  for (let i = 0; i < 200 && !heard.includes('STATUS'); i++)
    await new Promise((resolve) => setTimeout(resolve, 20));
  expect(heard).toContain('READY=1');
  expect(heard).toContain('STATUS=The anchor watch is kept.');
  // It also waits for systemd to have read it, which our ear does not confirm.
  ear.kill();
  await telling.catch(() => undefined);
  rmSync(folder, { recursive: true, force: true });
});
