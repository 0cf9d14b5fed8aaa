import { createSocket, type Socket } from 'node:dgram';
import { once } from 'node:events';
import { chmodSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { commonBoat } from '../../server/config/defaults.ts';
import { parseConfig } from '../../server/config/load.ts';
import { nameOutputs } from '../../server/config/sections/raise.ts';
import { toSettings } from '../../server/config/settings.ts';
import type { Daemon } from '../../server/daemon.ts';
import { sentence } from '../../server/raise/sentence.ts';
import type { Alert } from '../../shared/alerts/alert.ts';
import type { State } from '../../shared/state.ts';
import { api, daemonAtHand, emptyFolder } from './daemonAtHand.ts';

const settings = toSettings(commonBoat());
const RATE = 20;
const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
const mute = () => ({ stop: async () => {} });

const closing: (() => Promise<unknown> | unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

function hornScript(body: string): { file: string; said(): string } {
  const folder = mkdtempSync(join(tmpdir(), 'hawse-horn-'));
  closing.push(() => rmSync(folder, { recursive: true, force: true }));
  const file = join(folder, 'horn');
  const out = join(folder, 'said');
  writeFileSync(file, `#!/bin/sh\nsaid='${out}'\n${body}\n`);
  chmodSync(file, 0o755);
  return { file, said: () => (existsSync(out) ? readFileSync(out, 'utf8') : '') };
}

/** The outputs as hawse.yaml tells them. */
const outputs = (yaml: string) =>
  nameOutputs(
    parseConfig(
      `boat: {length: 12, draft: 1.9, antenna: {aftOfRoller: 9}}\nraise:\n  outputs:\n${yaml}`,
      'hawse.yaml',
    ).raise,
  );

async function start(raise: ReturnType<typeof outputs>, data = emptyFolder()): Promise<Daemon> {
  const daemon = await daemonAtHand({ settings, data, rate: RATE, feeder: mute, raise });
  closing.push(() => daemon.stop('end of the test'));
  return daemon;
}
const stateOf = async (daemon: Daemon): Promise<State> =>
  (await api(daemon, '/state')).json() as Promise<State>;
async function until(daemon: Daemon, holds: (state: State) => boolean): Promise<State> {
  for (let i = 0; i < 2000; i++, await wait(25)) {
    const state = await stateOf(daemon);
    if (holds(state)) return state;
  }
  throw new Error(`never came: ${JSON.stringify(await stateOf(daemon))}`);
}
const fault = (raised: boolean) =>
  ({ kind: 'fault', alert: 'disk', raised, priority: 'alarm', text: 'The log cannot be written.' }) as const;
const disk = (state: State) => state.alerts.find(({ kind }) => kind === 'disk');
const hornAlert = (state: State): Alert | undefined =>
  state.alerts.find(({ kind, text }) => kind === 'daemon' && text.startsWith('The horn'));

describe('the horn of the daemon', () => {
  test('sounds in an alarm, without any page, and is quiet when somebody acknowledges', async () => {
    const horn = hornScript(
      'echo "$HAWSE_ALERT_KIND" >> "$said"; trap "echo ended >> $said; exit" TERM; while :; do sleep 0.02; done',
    );
    const daemon = await start(outputs(`    - run: [${horn.file}]`));
    expect((await stateOf(daemon)).outputs).toEqual([
      { id: 'command1', kind: 'command', what: horn.file, on: false, failing: false },
    ]);
    void daemon.keeper.feed(fault(true));
    // No armed phone is there, so it does not wait for 30 s.
    const sounding = await until(daemon, (state) => state.outputs![0]!.lastOk !== undefined);
    expect(sounding.outputs![0]).toMatchObject({ on: true, failing: false });
    expect(horn.said()).toBe('disk\n');
    await api(daemon, `/alerts/${disk(sounding)!.id}/acknowledge`, 'POST', {});
    await until(daemon, (state) => !state.outputs![0]!.on);
    for (let i = 0; i < 2000 && !horn.said().includes('ended'); i++) await wait(25);
    expect(horn.said()).toContain('ended');
  });

  test('that fails is an alert itself, which ends when it works again, also over a restart', async () => {
    const data = emptyFolder();
    const horn = hornScript('exit 7');
    const raise = outputs(`    - {on: [${horn.file}], off: ["true"], id: foghorn}`);
    const daemon = await daemonAtHand({ settings, data, rate: RATE, feeder: mute, raise });
    const answer = await api(daemon, '/horn/test', 'POST', {});
    expect(answer.status).toBe(200);
    expect(await answer.json()).toEqual({
      outputs: [{ id: 'foghorn', ok: false, detail: `${horn.file} ended with 7` }],
    });
    const state = await until(daemon, (now) => hornAlert(now) !== undefined);
    expect(hornAlert(state)).toMatchObject({ priority: 'warning', state: 'active-unacknowledged' });
    expect(hornAlert(state)!.text).toBe(
      `The horn "foghorn" fails: ${horn.file} ended with 7. Alerts do not get out by it.`,
    );
    expect(state.outputs![0]!.lastTest).toMatchObject({ by: 'this computer', ok: false });
    await daemon.stop('restart');

    writeFileSync(horn.file, '#!/bin/sh\n');
    const again = await daemonAtHand({ settings, data, rate: RATE, feeder: mute, raise });
    expect(hornAlert(await stateOf(again))).toMatchObject({ state: 'active-unacknowledged' });
    expect((await stateOf(again)).outputs![0]).toMatchObject({ failing: true });
    expect((await api(again, '/horn/test', 'POST', {})).status).toBe(200);
    await until(again, (now) => hornAlert(now)?.state === 'rectified-unacknowledged');
    await again.stop('restart');

    // One that is no longer configured leaves no alert behind.
    const without = outputs(`    - {on: [${join(data, 'nothing')}], off: ["true"], id: foghorn}`);
    const third = await daemonAtHand({ settings, data, rate: RATE, feeder: mute, raise: without });
    expect((await api(third, '/horn/test', 'POST', {})).status).toBe(200);
    await until(third, (now) => hornAlert(now)?.state === 'active-unacknowledged');
    await third.stop('restart');
    const none = await start([], data);
    await until(none, (now) => hornAlert(now)?.state === 'rectified-unacknowledged');
    expect((await stateOf(none)).outputs).toBeUndefined();
  });

  test('tells a display by sentences, and obeys its ACN as an author of its own', async () => {
    const display: Socket = createSocket('udp4');
    const lines: string[] = [];
    display.on('message', (datagram) => lines.push(String(datagram)));
    display.bind(0, '127.0.0.1');
    await once(display, 'listening');
    closing.push(() => new Promise<void>((done) => display.close(() => done())));
    const probe = createSocket('udp4').bind(0, '127.0.0.1');
    await once(probe, 'listening');
    const ear = probe.address().port;
    await new Promise<void>((done) => probe.close(() => done()));
    const { port } = display.address();
    const daemon = await start(
      outputs(`    - {udp: ${port}, host: 127.0.0.1, accept: {port: ${ear}, from: 127.0.0.1}}`),
    );
    void daemon.keeper.feed(fault(true));
    for (let i = 0; i < 2000 && !lines.some((line) => line.includes('LOG FAILS')); i++) await wait(25);
    const [, , , , , category, priority, state, maker, identifier, instance] = lines
      .find((line) => line.includes('LOG FAILS'))!
      .split(/[,*]/);
    expect([category, priority, state]).toEqual(['B', 'A', 'V']);
    display.send(sentence('RAACN', ['', maker!, identifier!, instance!, 'A', 'C']), ear, '127.0.0.1');
    const after = await until(daemon, (now) => disk(now)?.state === 'active-acknowledged');
    expect(disk(after)!.acknowledgedBy).toBe('ACN udp1');
    for (let i = 0; i < 2000 && !lines.some((line) => line.includes(',B,A,A,')); i++) await wait(25);
    expect(lines.some((line) => line.includes(',B,A,A,'))).toBe(true);
  });

  test('without any horn the test says so', async () => {
    const daemon = await start([]);
    const answer = await api(daemon, '/horn/test', 'POST', {});
    expect(answer.status).toBe(409);
    expect(await answer.json()).toMatchObject({ type: 'urn:hawse:problem:unavailable' });
  });
});

describe('raise in hawse.yaml', () => {
  test('defaults: the horn after the pages, sentences and messages at once, cautions by sentence only', () => {
    const told = outputs(`    - run: [aplay, horn.wav]
    - {serial: /dev/ttyUSB1}
    - {udp: 10110}
    - {webhook: "https://192.0.2.1/x", after: {alarm: 1 min, warning: never}}
    - {on: [gpioset, "0", "17=1"], off: [gpioset, "0", "17=0"]}`);
    expect(told.map(({ id, after }) => [id, after])).toEqual([
      ['command1', { alarm: 30, warning: 120 }],
      ['serial1', { alarm: 0, warning: 0, caution: 0 }],
      ['udp1', { alarm: 0, warning: 0, caution: 0 }],
      ['webhook1', { alarm: 60, warning: undefined, caution: undefined }],
      ['command2', { alarm: 30, warning: 120 }],
    ]);
    expect(told[2]).toMatchObject({
      host: '255.255.255.255',
      formats: ['ALF'],
      talker: 'II',
      manufacturer: 'HWS',
    });
  });

  test.each([
    ['    - {run: []}', /run/],
    ['    - {run: [""]}', /program/],
    ['    - {run: aplay}', /run/],
    ['    - {run: [x], after: {alarm: 2 h}}', /at once.*never.*duration/],
    ['    - {run: [x], after: {caution: 30 s}}', /unknown key "caution"/],
    ['    - {udp: 0}', /udp/],
    ['    - {udp: 10110, accept: {port: 10112}}', /from/],
    ['    - {udp: 10110, talker: abc}', /two capital letters/],
    ['    - {webhook: "ftp://192.0.2.1/"}', /http/],
    ['    - {horn: loud}', /run.*on.*off.*serial.*udp.*webhook/],
    ['    - {run: [x], id: a}\n    - {run: [y], id: a}', /used twice/],
  ])('%s is refused in words', (yaml, words) => {
    expect(() => outputs(yaml)).toThrow(words);
  });
});
