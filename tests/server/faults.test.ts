import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, test } from 'vitest';
import { commonBoat } from '../../server/config/defaults.ts';
import { toSettings } from '../../server/config/settings.ts';
import type { Daemon, Sinks } from '../../server/daemon.ts';
import { createKeeper } from '../../server/keeper.ts';
import { createTimeline } from '../../server/timeline.ts';
import type { Alert } from '../../shared/alerts/alert.ts';
import { createEngine } from '../../shared/engine.ts';
import type { Event } from '../../shared/events.ts';
import { withChecksum } from '../../shared/sentences/checksum.ts';
import type { State } from '../../shared/state.ts';
import { api, daemonAtHand, emptyFolder } from './daemonAtHand.ts';

/** An exception in any room is an alarm, and the watch goes on. */

const settings = toSettings(commonBoat());
let daemon: Daemon | undefined;
afterEach(async () => {
  await daemon?.stop('test over');
  daemon = undefined;
});

const heading = withChecksum('HEHDT,90.0,T');
const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
const stateOf = async (): Promise<State> => (await api(daemon!, '/state')).json() as Promise<State>;
async function alarm(words: string): Promise<Alert> {
  for (let i = 0; i < 2000; i++, await wait(20)) {
    const found = (await stateOf()).alerts.find(
      ({ kind, text }) => kind === 'daemon' && text.includes(words),
    );
    if (found) return found;
  }
  throw new Error(`no alarm with "${words}": ${JSON.stringify((await stateOf()).alerts)}`);
}

test('what listens to the instruments throws at the start: the pages are there and say so', async () => {
  daemon = await daemonAtHand({
    settings,
    feeder: () => {
      throw new Error('no such driver');
    },
  });
  expect(await alarm('no such driver')).toMatchObject({ priority: 'alarm', state: 'active-unacknowledged' });
  expect((await api(daemon, '/watch', 'PATCH', { veered: 30 })).status).toBe(200);
});

test('an exception that nothing caught becomes an alarm, once, and inputs are taken after it', async () => {
  let sinks: Sinks | undefined;
  daemon = await daemonAtHand({
    settings,
    feeder: (given) => {
      sinks = given;
      return { stop: async () => Promise.reject(new Error('will not stop')) };
    },
  });
  for (let i = 0; i < 50; i++) daemon.met('process', new Error('out of the blue'));
  daemon.met('process', undefined);
  await alarm('out of the blue');
  sinks!.line('a', heading);
  for (let i = 0; i < 2000 && (await stateOf()).vessel.heading === undefined; i++) await wait(20);
  const { vessel, alerts } = await stateOf();
  expect(vessel.heading?.value).toBe(90);
  expect(alerts.filter(({ kind }) => kind === 'daemon')).toHaveLength(1);
  // And a feeder that will not stop keeps nothing from being stopped: afterEach would hang.
});

test('a page that cannot be told, a journal that throws, an engine that breaks: each is told with its room, the rest goes on', async () => {
  const broken: string[] = [];
  let heard = 0;
  let journalThrows = false;
  const keeper = createKeeper(createEngine(settings), {
    journal: {
      line() {
        if (journalThrows) throw new Error('journal');
      },
      act() {
        if (journalThrows) throw new Error('journal');
        return Promise.resolve();
      },
    } as never,
    timeline: createTimeline(1_700_000_000),
    heard(_events: Event[]) {
      heard++;
      if (heard === 1) throw new Error('pages');
    },
    broken: (error, room) => broken.push(`${room}: ${(error as Error).message}`),
  });
  await keeper.feed({ kind: 'line', source: 'a', text: heading });
  expect(broken).toEqual(['pages: pages']);
  expect(keeper.engine().inputs[0]?.sentences).toBe(1);

  journalThrows = true;
  await keeper.feed({ kind: 'line', source: 'a', text: heading });
  expect(keeper.engine().inputs[0]?.sentences).toBe(2);
  const answer = await keeper.feed({
    kind: 'command',
    by: 'Mia',
    command: { do: 'watch', change: { veered: 20 } },
  });
  expect(answer).toMatchObject({ ok: false, problem: 'unavailable' });
  expect(keeper.engine().watch.told.veered).toBe(20);
  expect(broken.slice(1)).toEqual(['journal: journal', 'journal: journal']);

  journalThrows = false;
  const whole = keeper.engine().inputs;
  Object.defineProperty(keeper.engine(), 'inputs', {
    configurable: true,
    get() {
      throw new Error('engine');
    },
  });
  await keeper.feed({ kind: 'line', source: 'a', text: heading });
  expect(broken.slice(3)).toEqual(['engine: engine']);
  Object.defineProperty(keeper.engine(), 'inputs', { value: whole });
  await keeper.feed({ kind: 'line', source: 'a', text: heading });
  expect(keeper.engine().inputs[0]?.sentences).toBe(3);
});

test('a fault of the last run that this one does not have ends by itself', async () => {
  const data = emptyFolder();
  const feeder = () => ({ stop: async () => {} });
  daemon = await daemonAtHand({ settings, feeder, data });
  daemon.met('pages', new Error('old trouble'));
  await alarm('old trouble');
  await daemon.stop('restart');
  daemon = await daemonAtHand({ settings, feeder, data });
  for (let i = 0; i < 2000; i++, await wait(20)) {
    const old = (await stateOf()).alerts.find(({ kind }) => kind === 'daemon');
    if (old?.state === 'rectified-unacknowledged') return;
  }
  throw new Error(`still: ${JSON.stringify((await stateOf()).alerts)}`);
});

test('after a crash at anchor the crew hears how long nobody watched; acknowledged, it goes', async () => {
  const data = emptyFolder();
  const feeder = () => ({ stop: async () => {} });
  const start = 1_800_000_000;
  daemon = await daemonAtHand({ settings, feeder, data, start });
  await api(daemon, '/mark', 'POST', { lat: -36, lon: 163.5 });
  await daemon.stop('restart');
  // As a power cut leaves it: the lock of a process that is no more.
  writeFileSync(join(data, 'lock'), JSON.stringify({ pid: 2 ** 22 + 1, began: 'gone' }));
  daemon = await daemonAtHand({ settings, feeder, data, start: start + 4 * 3600 });
  const told = await alarm('Nobody watched for 4.0 h');
  expect(told).toMatchObject({ kind: 'daemon', priority: 'warning', state: 'active-unacknowledged' });
  expect(told.text).toContain('without a goodbye');
  expect((await api(daemon, `/alerts/${told.id}/acknowledge`, 'POST', {})).status).toBe(200);
  for (let i = 0; i < 2000; i++, await wait(20))
    if (!(await stateOf()).alerts.some(({ id }) => id === told.id)) return;
  throw new Error('it did not go');
});
