import { createSocket } from 'node:dgram';
import { mkdirSync, writeFileSync } from 'node:fs';
import { type AddressInfo, createServer } from 'node:net';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import type { Finding } from '../../../server/check/finding.ts';
import { run } from '../../../server/commands/check.ts';
import { settingsOf } from '../../../server/commands/rehearse.ts';
import { anchorages } from '../../../server/simulate/anchorages.ts';
import { withChecksum } from '../../../shared/sentences/checksum.ts';
import { daemonAtHand, emptyFolder } from '../daemonAtHand.ts';
import { said } from './said.ts';

const ends: (() => unknown)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

const BOAT = 'boat: { length: 12, draft: 1.9, antenna: { aftOfRoller: 9 } }\n';

/** Runs the check on a config of these lines, in a folder of its own. */
async function check(yaml: string | undefined, data?: string) {
  const folder = emptyFolder();
  const file = join(folder, 'hawse.yaml');
  if (yaml !== undefined) writeFileSync(file, BOAT + yaml);
  const { code, out } = await said(run, ['--config', file, '--data', data ?? join(folder, 'data'), '--json']);
  const { ok, faults, findings } = JSON.parse(out) as { ok: boolean; faults: number; findings: Finding[] };
  const told = findings.filter(({ state }) => state === 'fault');
  expect(told.length).toBe(faults);
  expect(code).toBe(ok ? 0 : 1);
  expect(findings.every(({ state, cure }) => (state === 'good') === (cure === undefined))).toBe(true);
  return { code, faults: told.map(({ what, text, cure }) => `${what}: ${text} → ${cure}`), findings };
}

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  await new Promise<void>((resolve) => server.close(() => resolve()));
  return port;
}

describe('hawse check', () => {
  test('finds no fault on a boat that is in order: exit 0', async () => {
    const udp = await freePort();
    const socket = createSocket('udp4');
    const timer = setInterval(() => socket.send(withChecksum('SDDPT,5.3,0.4'), udp, '127.0.0.1'), 100);
    ends.push(() => {
      clearInterval(timer);
      socket.close();
    });
    const yaml = `instruments: [{ udp: ${udp} }]\nserver: { port: 0 }\nraise: { outputs: [{ run: [${process.execPath}] }] }\n`;
    const { code, faults, findings } = await check(yaml);
    // Where temporary folders lie in memory, that is a fault indeed.
    const isInMemory = (told: string) => told.startsWith('disk: ') && told.includes('lies in memory');
    expect(faults.filter((told) => !isInMemory(told))).toEqual([]);
    expect(code).toBe(faults.length === 0 ? 0 : 1);
    const looked = new Set(findings.map(({ what }) => what));
    expect([...looked]).toEqual(['config', 'inputs', 'disk', 'clock', 'addresses', 'certificate', 'horn']);
    expect(findings.find(({ what }) => what === 'inputs')!.text).toContain('sentences arrive');
  });

  test('a config that is missing or wrong is told with line and what is allowed; the rest is looked at all the same', async () => {
    const { faults, findings } = await check(undefined);
    expect(faults[0]).toMatch(
      /^config: there is no .*hawse\.yaml → cp .*server\/hawse\.example\.yaml .*hawse\.yaml/,
    );
    expect(findings.some(({ what }) => what === 'horn')).toBe(true);
    expect((await check('wach: {}\nserver: { prot: 1 }\n')).faults.slice(0, 2)).toEqual([
      expect.stringMatching(/hawse\.yaml:\d: server\.prot: unknown key "prot"/),
      expect.stringMatching(/hawse\.yaml:\d: wach: unknown key "wach"/),
    ]);
    expect((await check('')).faults[0]).toContain('none is listed → hawse listen finds them');
  });

  test('each fault of inputs, addresses and horn is one line with its cure', async () => {
    const taken = createServer();
    await new Promise<void>((resolve) => taken.listen(0, '0.0.0.0', resolve));
    ends.push(() => taken.close());
    const { port } = taken.address() as AddressInfo;
    const refusing = await freePort();
    const { code, faults } = await check(`
instruments: [{ serial: /dev/ttyUSB77 }, { tcp: "127.0.0.1:${refusing}" }]
server: { port: ${port}, tls: false }
raise:
  outputs:
    - run: [no-such-horn, /no/horn.wav]
    - { serial: /dev/ttyUSB78 }
    - { webhook: "http://boat.invalid/", id: hook }
supervise: { run: [[no-such-shout]] }
`);
    expect(code).toBe(1);
    expect(faults).toEqual([
      expect.stringMatching(/^inputs: serial1: there is no \/dev\/ttyUSB77 → plug it in/),
      expect.stringMatching(
        /^inputs: tcp1, TCP 127\.0\.0\.1:\d+: .*refuses the connection.* → is the gateway switched on/,
      ),
      `addresses: port ${port}: it is taken by another program → end that program, or set server.port`,
      expect.stringMatching(/^horn: command1: there is no program no-such-horn → install it/),
      expect.stringMatching(/^horn: command1: there is no file \/no\/horn\.wav →/),
      expect.stringMatching(/^horn: serial1: there is no \/dev\/ttyUSB78 →/),
      expect.stringMatching(/^horn: hook: the name boat\.invalid is not known here →/),
      expect.stringMatching(/^horn: supervise\.run: there is no program no-such-shout →/),
    ]);
  });

  test('the disk: a folder that is a file, one of a newer hawse, room that is short', async () => {
    const folder = emptyFolder();
    const file = join(folder, 'data');
    writeFileSync(file, '');
    expect((await check('', file)).faults).toContainEqual(
      expect.stringMatching(/^disk: .* takes nothing: .* → /),
    );
    const newer = join(folder, 'newer');
    mkdirSync(newer);
    writeFileSync(join(newer, 'format.json'), '{"format":99,"writtenBy":"hawse 9.9.9"}');
    expect((await check('journal: { leastFree: 10000 GB }\n', newer)).faults).toEqual(
      expect.arrayContaining([
        expect.stringMatching(
          /^disk: .*written by a newer hawse \(hawse 9\.9\.9\).* → install that version again/,
        ),
        expect.stringMatching(/^disk: .* are free .*must stay.* → make room/),
      ]),
    );
  });

  test('while a hawse keeps its watch it is asked, and its ports are no fault', async () => {
    const data = emptyFolder();
    const daemon = await daemonAtHand({
      settings: settingsOf(anchorages()[0]!),
      data,
      feeder: (sinks) => {
        sinks.link('masthead', false, 'the mast is gone');
        return { stop: async () => undefined };
      },
    });
    ends.push(() => daemon.stop('test'));
    const { faults, findings } = await check(`server: { port: ${daemon.port} }\n`, data);
    expect(faults).toContain(
      'inputs: masthead: the mast is gone → see to it: the watch tries again by itself',
    );
    expect(faults.filter((told) => told.startsWith('addresses'))).toEqual([]);
    expect(findings.map(({ text }) => text)).toContain(`process ${process.pid} keeps its watch in ${data}`);
  });

  test('without --json: a line a finding, its cure below', async () => {
    const { out } = await said(run, ['--config', join(emptyFolder(), 'hawse.yaml'), '--data', emptyFolder()]);
    expect(out).toMatch(/^FAULT {2}config {7}there is no .*\n {20}do: cp /);
    expect(out).toMatch(/\n(One fault was|2 faults were) found\.\n$/);
  });
});
