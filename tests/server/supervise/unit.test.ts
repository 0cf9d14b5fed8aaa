import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

/** The unit file that is shipped, as systemd itself judges it. */
const unit = readFileSync(fileURLToPath(new URL('../../../server/hawse.service', import.meta.url)), 'utf8');
const isHere = spawnSync('systemd-analyze', ['--version']).error === undefined;

test('the unit hears what the supervisor says, and gives it the time that it needs', () => {
  const value = (key: string) => new RegExp(`^${key}=(.*)$`, 'm').exec(unit)?.[1];
  expect(value('Type')).toBe('notify');
  expect(value('NotifyAccess')).toBe('all');
  expect(value('KillMode')).toBe('mixed');
  expect(value('Restart')).toBe('always');
  expect(Number(value('TimeoutStopSec'))).toBeGreaterThan(20 + 5);
  expect(Number(value('TimeoutStartSec'))).toBeGreaterThan(120);
  expect(Number(value('WatchdogSec'))).toBeGreaterThan(10);
});

test('systemd-analyze finds no fault in it, and little that is exposed', () => {
  if (!isHere) {
    console.log('NOT TESTED: the systemd unit (systemd-analyze is not here)');
    return;
  }
  const folder = mkdtempSync(join(tmpdir(), 'hawse-unit-'));
  const file = join(folder, 'hawse.service');
  // Where hawse is installed is no matter of this computer.
  writeFileSync(file, unit.replace('/usr/local/bin/hawse', process.execPath));
  const verified = spawnSync('systemd-analyze', ['verify', file], { encoding: 'utf8' });
  expect([verified.status, verified.stderr]).toEqual([0, '']);
  const score = spawnSync('systemd-analyze', ['security', '--offline=true', file], { encoding: 'utf8' });
  rmSync(folder, { recursive: true });
  const exposure = /exposure level for \S+: ([\d.]+)/.exec(score.stdout)?.[1];
  if (exposure === undefined) {
    console.log(`NOT TESTED: hardening score (${score.stderr.trim()})`);
    return;
  }
  expect(Number(exposure)).toBeLessThanOrEqual(2.0);
});
