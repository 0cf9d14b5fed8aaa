import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { emptyFolder } from './daemonAtHand.ts';

/** The command as a person calls it; `npm test` has built it. */
const hawse = (...args: string[]) =>
  spawnSync(process.execPath, ['server/hawse.mjs', ...args], {
    encoding: 'utf8',
    timeout: 60_000,
    killSignal: 'SIGKILL',
  });

describe('hawse, as called', () => {
  test('--version and --help answer on stdout with exit 0, for every command', () => {
    expect(hawse('--version')).toMatchObject({
      status: 0,
      stdout: expect.stringMatching(/^\d+\.\d+\.\d+\n$/),
    });
    expect(hawse('--help').stdout).toContain('usage: hawse');
    for (const command of ['keep', 'rehearse', 'pair', 'replay', 'listen', 'check', 'export', 'import']) {
      const { status, stdout } = hawse(command, '--help');
      expect(status).toBe(0);
      expect(stdout).toContain(`usage: hawse ${command}`);
    }
  });

  test.each([
    [['bogus'], '"bogus" is no command; allowed: keep, rehearse, pair'],
    [['keep', '--port', '99999'], '--port "99999" is not a number from 0 to 65535'],
    [['keep', '--prot', '1'], "Unknown option '--prot'; allowed: --config, --data, --port, --host, --help"],
    [['rehearse', 'nowhere'], 'there is no anchorage "nowhere"; allowed: quiet-night'],
    [['rehearse', '--rate', '-3'], '--rate'],
    [['export', '--data', '/no/folder'], 'there is no data folder /no/folder'],
    [['export', '--data', '.', '--night', 'last'], '"last" is no id like 2026-11-25T2010-1'],
    [
      ['export', '--data', '.', '--night', '2026-11-25T2010-1', '--as', 'kml'],
      'allowed: gpx, geojson, csv, nmea',
    ],
    [['import'], 'import needs at least one FILE'],
    [['replay', '--night', '2026-11-25T2010-1', 'x.nmea'], '--night takes no LOG'],
  ])('%j is wrong usage: exit 2, one line on stderr', (args, told) => {
    const { status, stdout, stderr } = hawse(...args);
    expect(status).toBe(2);
    expect(stdout).toBe('');
    expect(stderr.trim().split('\n')).toHaveLength(1);
    expect(stderr).toContain(told);
  });

  test('an old Node.js is told, exit 1, before anything of it fails in its own words', () => {
    const pretend = join(emptyFolder(), 'old.cjs');
    writeFileSync(
      pretend,
      "Object.defineProperty(process, 'versions', { value: { ...process.versions, node: '20.18.3' } });",
    );
    const { status, stderr } = spawnSync(
      process.execPath,
      ['--require', pretend, 'server/hawse.mjs', '--version'],
      { encoding: 'utf8' },
    );
    expect(status).toBe(1);
    expect(stderr).toMatch(/^hawse: needs Node\.js 20\.19 or newer; this is 20\.18\.3\..*\n$/);
  });

  test('a config that is missing or has no instruments is told, exit 1', () => {
    expect(hawse('keep', '--config', '/no/hawse.yaml')).toMatchObject({ status: 1 });
    const bare = join(emptyFolder(), 'hawse.yaml');
    writeFileSync(bare, 'boat: { length: 12, draft: 1.9, antenna: { aftOfRoller: 9 } }\n');
    const { status, stderr } = hawse('keep', '--config', bare);
    expect(status).toBe(1);
    expect(stderr).toContain('instruments: none is listed');
  });

  test('an address that cannot be had ends the command with words, not a hang', () => {
    const config = ['--config', 'server/hawse.example.yaml', '--data', emptyFolder()];
    const { status, stderr } = hawse('keep', ...config, '--port', '0', '--host', '203.0.113.9');
    expect(status).toBe(1);
    expect(stderr).toContain('203.0.113.9');
    expect(stderr).not.toContain('    at ');
  });

  test('--list names every anchorage with what happens there', () => {
    const { status, stdout } = hawse('rehearse', '--list');
    expect(status).toBe(0);
    expect(stdout.trim().split('\n').length).toBeGreaterThanOrEqual(10);
    expect(stdout).toMatch(/^drag-creep\s+the wind rises/m);
  });
});
