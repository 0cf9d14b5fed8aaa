import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { settingsOf } from '../../server/commands/rehearse.ts';
import { anchorages } from '../../server/simulate/anchorages.ts';
import { withChecksum } from '../../shared/sentences/checksum.ts';
import { api, daemonAtHand } from '../server/daemonAtHand.ts';

/** Every command that the docs name exists with every option named, and those that are quick are run. */
const pages = [
  'README.md',
  'DEVELOPERS.md',
  ...readdirSync('docs').flatMap((name) => (name.endsWith('.md') ? [`docs/${name}`] : [])),
];
const manifest = JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: Record<string, string> };
/** Programs of the system that a page may name; what they do to it cannot be tried here. */
const SYSTEM = ['sudo', 'cp', 'journalctl', 'systemctl'];

interface Told {
  page: string;
  words: string[];
}

/** The commands in sh blocks, and inline code that calls one of ours. */
function commandsIn(page: string): Told[] {
  const text = readFileSync(page, 'utf8');
  const blocks = [...text.matchAll(/```sh\n([\s\S]*?)```/g)].flatMap(([, block]) => block!.split('\n'));
  const prose = text.replace(/```[\s\S]*?```/g, '');
  const inline = [...prose.matchAll(/`((?:npx hawse|hawse|npm|node) [^`]+)`/g)].map(([, code]) =>
    code!.replace(/\s+/g, ' '),
  );
  return [...blocks, ...inline]
    .map((line) => line.replace(/(^|\s)#.*$/, '').trim())
    .flatMap((line) => line.split(/\s*&&\s*|\s*;\s*/))
    .filter((command) => command !== '')
    .map((command) => ({ page, words: command.split(' ').filter((word) => word !== '') }));
}

const told = pages.flatMap(commandsIn);
const isHawse = ({ words }: Told) =>
  words.join(' ').match(/^(npx hawse|hawse|node server\/hawse\.mjs)\b/) !== null;
/** What is told of `hawse` without the way it is called. */
const afterHawse = ({ page, words }: Told) => ({
  page,
  words: words.slice(words[0] === 'hawse' ? 1 : 2),
});
const ofHawse = told.filter(isHawse).map(afterHawse);

const folder = mkdtempSync(join(tmpdir(), 'hawse-docs-'));
const command = resolve('server/hawse.mjs');
const hawse = (args: string[], cwd = folder) =>
  spawnSync(process.execPath, [command, ...args], {
    encoding: 'utf8',
    cwd,
    timeout: 60_000,
    killSignal: 'SIGKILL',
  });

const names = [...new Set(ofHawse.map(({ words }) => words[0]!))].filter((word) => /^[a-z]/.test(word));
const help = new Map(names.map((name) => [name, hawse([name, '--help'])]));

describe('the commands in the docs', () => {
  test('are found: pages, blocks and inline', () => {
    expect(pages.length).toBeGreaterThan(12);
    expect(names).toEqual(
      expect.arrayContaining(['keep', 'rehearse', 'replay', 'export', 'import', 'pair', 'listen', 'check']),
    );
    expect(told.map(({ words }) => words.join(' '))).toEqual(
      expect.arrayContaining(['npm ci', 'npm start', 'npm test']),
    );
  });

  test.each(names)('hawse %s exists and has every option that is told of it', (name) => {
    const { status, stdout } = help.get(name)!;
    expect([name, status]).toEqual([name, 0]);
    expect(stdout).toContain(`usage: hawse ${name}`);
    for (const { page, words } of ofHawse.filter(({ words }) => words[0] === name))
      for (const word of words.slice(1)) {
        const option = /^\[?(--[a-zA-Z-]+)/.exec(word)?.[1];
        if (option !== undefined)
          expect([page, option, stdout.includes(option)]).toEqual([page, option, true]);
      }
  });

  test('name anchorages that there are', () => {
    const { status, stdout } = hawse(['rehearse', '--list']);
    expect(status).toBe(0);
    const known = stdout.split('\n').map((line) => line.split(' ')[0]);
    const asked = ofHawse.flatMap(({ page, words: [name, scenario] }) =>
      name === 'rehearse' && scenario !== undefined && /^[a-z]/.test(scenario)
        ? [[page, scenario] as const]
        : [],
    );
    expect(asked.length).toBeGreaterThan(0);
    for (const [page, scenario] of asked)
      expect([page, scenario, known.includes(scenario)]).toEqual([page, scenario, true]);
  });

  test('of npm, node and the shell exist too', () => {
    const wrong = told
      .filter((one) => !isHawse(one) && !exists(one))
      .map(({ page, words }) => `${page}: ${words.join(' ')}`);
    expect(wrong).toEqual([]);
  });
});

function exists({ words: [program, ...rest] }: Told): boolean {
  const [first, second] = rest;
  switch (program) {
    case 'npm':
      if (first === 'run') return second !== undefined && second in manifest.scripts;
      if (first === 'test' || first === 'start') return first in manifest.scripts;
      return ['ci', 'init', 'install', 'uninstall', 'pack'].includes(first ?? '');
    case 'npx':
      return (
        first === 'vitest' && rest.filter((word) => word.includes('/')).every((path) => existsSync(path))
      );
    case 'node':
    case 'bash':
      return existsSync(first ?? '');
    case 'cp':
      return existsSync(first!.replace('node_modules/hawse/', ''));
    default:
      return SYSTEM.includes(program ?? '') || existsSync(program ?? '');
  }
}

describe('the quick ones, run', () => {
  const depth = (n: number) => withChecksum(`SDDPT,${n}.0,0.4`);

  test('hawse replay of a recording, with an anchorage file as docs/formats.md shows it', () => {
    const log = join(folder, 'LOG.nmea');
    writeFileSync(
      log,
      [1, 2, 3].map((n) => `\\c:${1_700_000_000 + n}*${tagSum(1_700_000_000 + n)}\\${depth(n)}\n`).join(''),
    );
    expect(hawse(['replay', log])).toMatchObject({
      status: 0,
      stdout: expect.stringContaining('3 sentences from 3 lines'),
    });
    const json = /```json\n([\s\S]*?)```/.exec(readFileSync('docs/formats.md', 'utf8'))![1]!;
    writeFileSync(join(folder, 'anchorage.json'), json);
    const { status, stdout } = hawse([
      'replay',
      log,
      '--anchorage',
      'anchorage.json',
      '--jsonl',
      '--lie',
      '1',
    ]);
    expect(status).toBe(0);
    const events = stdout
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as { event: string });
    expect(events.at(-1)).toMatchObject({ event: 'summary', sentences: 3 });
  });

  test('hawse check and hawse listen in a folder of their own', () => {
    const check = hawse(['check', '--json']);
    expect(check.status).toBe(1);
    expect((JSON.parse(check.stdout) as { findings: { text: string }[] }).findings[0]!.text).toBe(
      'there is no hawse.yaml',
    );
    const { status, stdout } = hawse(['listen', '--seconds', '1', '--json']);
    expect([0, 1]).toContain(status);
    expect((JSON.parse(stdout) as { duties: unknown[] }).duties.length).toBe(8);
  });

  test('the two lines for an own boat: the example is copied and is understood', () => {
    writeFileSync(join(folder, 'hawse.yaml'), readFileSync('server/hawse.example.yaml'));
    const { stdout } = hawse(['check', '--json']);
    const { findings } = JSON.parse(stdout) as { findings: { what: string; state: string }[] };
    expect(findings.filter(({ what }) => what === 'config')).toMatchObject([{ state: 'good' }]);
  });

  test('hawse pair without a hawse that runs: exit 1 in words', () => {
    expect(hawse(['pair', '--port', '1'])).toMatchObject({
      status: 1,
      stderr: expect.stringContaining('no hawse answers'),
    });
  });
});

const tagSum = (at: number): string =>
  [...`c:${at}`]
    .reduce((sum, c) => sum ^ c.charCodeAt(0), 0)
    .toString(16)
    .toUpperCase()
    .padStart(2, '0');

test('links between the pages lead to files that are there', () => {
  const broken = pages.flatMap((page) =>
    [...readFileSync(page, 'utf8').matchAll(/\]\(([^)#\s]+)[^)]*\)/g)]
      .map(([, target]) => target!)
      .filter((target) => !/^[a-z]+:/.test(target) && !existsSync(join(dirname(page), target)))
      .map((target) => `${page}: ${target}`),
  );
  expect(broken).toEqual([]);
});

describe('the client of docs/api.md', () => {
  const ends: (() => unknown)[] = [];
  afterEach(async () => {
    for (const end of ends.splice(0).reverse()) await end();
  });

  test('is docs/client.mjs, and hears the report, an alert and the goodbye of a real daemon', async () => {
    const block = /```js\n([\s\S]*?)```/.exec(readFileSync('docs/api.md', 'utf8'))![1];
    expect(block).toBe(readFileSync('docs/client.mjs', 'utf8'));

    const daemon = await daemonAtHand({
      settings: settingsOf(anchorages()[0]!),
      feeder: () => ({ stop: async () => undefined }),
    });
    let isStopped = false;
    const stop = async () => {
      if (!isStopped) await daemon.stop('the docs are tested');
      isStopped = true;
    };
    ends.push(stop);
    const client = spawn(process.execPath, ['docs/client.mjs', `ws://127.0.0.1:${daemon.port}`], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    ends.push(() => client.kill());
    let said = '';
    client.stdout.on('data', (chunk) => {
      said += chunk;
    });
    const until = async (what: string | RegExp) => {
      for (let i = 0; i < 200 && said.search(what) < 0; i++)
        await new Promise((resolve) => setTimeout(resolve, 100));
      expect(said).toMatch(what);
    };
    const { report } = (await (await api(daemon, '/state')).json()) as { report: string };
    await until(report);
    expect((await api(daemon, '/mark', 'POST', { lat: 43, lon: 7 })).status).toBe(200);
    await until(/^ALERT .+/m);
    await stop();
    await until('NOBODY WATCHES: the docs are tested');
    await until('no word from the boat');
  });
});
