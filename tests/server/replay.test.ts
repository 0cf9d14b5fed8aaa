import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Anchorage } from '../../server/config/anchorage.ts';
import { commonBoat } from '../../server/config/defaults.ts';
import { toSettings } from '../../server/config/settings.ts';
import { replay } from '../../server/replay.ts';
import type { Event } from '../../shared/events.ts';
import { recorded } from '../recorded.ts';

const common = toSettings(commonBoat());
const anchorageAt = (lat: number, lon: number, radius: number): Anchorage => ({
  boat: {},
  cable: { veered: 42 },
  mark: { lat, lon },
  circle: { radius },
  limits: {},
});

async function run(file: string, anchorage: Anchorage, lieEvery = 1) {
  const events: Event[] = [];
  const settings = { ...common, circle: { radius: anchorage.circle.radius ?? 50, margin: 6 }, lieEvery };
  const { summary, engine } = await replay([file], settings, anchorage, (event) => events.push(event));
  return { events, summary, engine };
}

const alerts = (events: Event[], kind: string) =>
  events.filter((event) => event.event === 'alert').filter((event) => event.kind === kind);
const seconds = (text: string) => Date.parse(text) / 1000;

describe('the frozen fix of lake-2014-06-27 (real boat, 38 minutes)', () => {
  const file = recorded('boat-lake/lake-2014-06-27.nmea.gz');
  const frozen = seconds('2014-06-26T15:12:16Z');

  test.runIf(file)(
    'position-lost comes within 10 s of the freeze and holds until positions come again',
    async () => {
      const { events } = await run(file!, anchorageAt(46.2, 6.16, 5000));
      const lost = alerts(events, 'position-lost');
      expect(lost[0]).toMatchObject({ state: 'active-unacknowledged', priority: 'alarm' });
      expect(lost[0]!.t).toBeGreaterThan(frozen);
      expect(lost[0]!.t).toBeLessThanOrEqual(frozen + 10);
      expect(lost[1]!.t).toBeGreaterThan(frozen + 37 * 60);
    },
  );

  test.runIf(file)('no distance is told while the fix is frozen', async () => {
    const { events } = await run(file!, anchorageAt(46.2, 6.16, 5000));
    const told = events.filter(
      (event) => event.event === 'lie' && event.t > frozen + 11 && event.t < frozen + 37 * 60,
    );
    expect(told.length).toBeGreaterThan(2000);
    expect(told.filter((event) => 'distance' in event)).toEqual([]);
    expect(told.filter((event) => 'depth' in event).length).toBeGreaterThan(2000);
  });

  test.runIf(file)('the steps of 52 m and 70 m are a doubtful position, not a drag', async () => {
    const { events } = await run(file!, anchorageAt(46.2, 6.16, 5000));
    const doubt = alerts(events, 'position-doubtful').filter(
      ({ state }) => state === 'active-unacknowledged',
    );
    expect(doubt.some(({ t }) => t < frozen)).toBe(true);
    expect(doubt.some(({ t }) => t > frozen + 37 * 60)).toBe(true);
    const drag = alerts(events, 'drag').filter(
      ({ priority, t }) => priority === 'alarm' && t < frozen + 40 * 60,
    );
    expect(drag).toEqual([]);
  });
});

describe('every recorded file', () => {
  const folders = ['quirks', 'damaged', 'ais', 'boat-ijsselmeer-2018', 'boat-lake', 'static'];
  const files = folders.flatMap((folder) => {
    const path = recorded(folder);
    return path ? readdirSync(path).map((name) => join(path, name)) : [];
  });

  test.runIf(files.length > 0).each(files)(
    '%s: no crash, no NaN, no position at 0/0, counts that add up',
    async (file) => {
      const { events, summary, engine } = await run(file, anchorageAt(52.8501, 5.3136, 1e4), 10);
      const { sentences, rejected, lines, glued } = summary;
      expect(sentences + rejected.checksum + rejected.malformed + rejected.unknown).toBe(lines + glued);
      expect(lines).toBeGreaterThan(0);
      const text = JSON.stringify({ events, engine }, (_key, value) => {
        if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`not a number in ${file}`);
        return value;
      });
      expect(text).not.toMatch(/"lat":-?0,"lon":-?0[,}]/);
    },
  );
});

describe('hawse replay, as called', () => {
  const folder = mkdtempSync(join(tmpdir(), 'hawse-replay-'));
  const log = join(folder, 'short.nmea');
  const anchorage = join(folder, 'anchorage.json');
  writeFileSync(log, '$GPRMC,094737,A,5251.0093,N,00518.8170,E,5.6,230.5,200818,1.4,E,A*1F\r\nnonsense\r\n');
  writeFileSync(anchorage, JSON.stringify({ cable: { veered: 42 }, mark: { lat: 52.85, lon: 5.3136 } }));
  const hawse = (...args: string[]) =>
    spawnSync(process.execPath, ['server/hawse.mjs', 'replay', ...args], { encoding: 'utf8' });

  test('--jsonl prints JSON objects, the summary last', () => {
    const out = execFileSync(
      process.execPath,
      ['server/hawse.mjs', 'replay', log, '--jsonl', '--anchorage', anchorage],
      {
        encoding: 'utf8',
      },
    );
    const objects = out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(objects.at(-1)).toMatchObject({
      event: 'summary',
      sentences: 1,
      rejected: { checksum: 0, malformed: 1, unknown: 0 },
      from: seconds('2018-08-20T09:47:37Z'),
    });
    expect(objects[0]).toMatchObject({ event: 'mark', mark: { lat: 52.85 } });
  });

  test('a readable summary names the circle and the alerts', () => {
    const { stdout, status } = hawse(log, '--anchorage', anchorage);
    expect(status).toBe(0);
    expect(stdout).toMatch(/1 sentences from 2 lines .*\nRefused: 0 by checksum, 1 malformed/);
    expect(stdout).toMatch(/Circle: \d+\.\d m\./);
  });

  test.each([
    [['--lie', 'often'], '--lie "often" is not a number from 1 to 86400'],
    [['/no/such/file'], 'there is no file /no/such/file'],
    [
      ['--jsnl'],
      "Unknown option '--jsnl'; allowed: --anchorage, --config, --jsonl, --lie, --night, --data, --help",
    ],
    [[], 'replay needs at least one LOG file'],
  ])('%j is wrong usage: exit 2 and one line that says what is allowed', (args, told) => {
    const { status, stderr } = hawse(...(args[0] === '--lie' ? [log, ...args] : args));
    expect(status).toBe(2);
    expect(stderr.trim().split('\n')).toHaveLength(1);
    expect(stderr).toContain(told);
  });

  test('an anchorage file with an unknown member is refused by name, exit 1', () => {
    const bad = join(folder, 'bad.json');
    writeFileSync(bad, JSON.stringify({ cable: { veered: 42 }, mark: { lat: 95, lon: 5 }, circel: {} }));
    const { status, stderr } = hawse(log, '--anchorage', bad);
    expect(status).toBe(1);
    expect(stderr).toContain('unknown key "circel"');
    expect(stderr).toContain('mark.lat');
  });
});
