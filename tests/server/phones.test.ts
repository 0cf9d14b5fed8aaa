import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { WebSocket } from 'ws';
import type { OpenPhone } from '../../server/api/live/clients.ts';
import { commonBoat } from '../../server/config/defaults.ts';
import { toSettings } from '../../server/config/settings.ts';
import { createPhones, expectAgain, gone, look, PHONES_LIMIT_S, rest } from '../../server/phones.ts';
import { lacks, wouldWake } from '../../shared/phone.ts';
import type { PageView, State } from '../../shared/state.ts';
import { api, daemonAtHand, emptyFolder } from './daemonAtHand.ts';

const view = (told: Partial<PageView> = {}): PageView => ({
  id: 'page1',
  name: 'bunk',
  page: 'watch',
  visible: true,
  sound: true,
  armed: true,
  wakeLock: 'held',
  silent: false,
  mayAnswer: true,
  lastAt: 0,
  ...told,
});
const at = (nowMs: number, phone: string, told: Partial<PageView> = {}): OpenPhone => ({
  view: view(told),
  phone,
  heardMs: nowMs,
});
const LIMIT = PHONES_LIMIT_S * 1000;

describe('whether a phone would wake somebody', () => {
  test.each<[Partial<PageView>, string[]]>([
    [{}, []],
    [{ wakeLock: 'as-told' }, []],
    [{ visible: false }, ['hidden']],
    [{ sound: false, wakeLock: 'lost' }, ['sound', 'wake-lock']],
    [{ wakeLock: 'absent' }, ['wake-lock']],
    [{ charging: false, battery: 0.5 }, []],
    [{ charging: false, battery: 0.15 }, ['battery']],
    [{ charging: true, battery: 0.05 }, []],
    [{ silent: true, visible: false, sound: false }, ['silent']],
  ])('%j lacks %j', (told, lacking) => {
    expect(lacks(view(told))).toEqual(lacking);
    expect(wouldWake(view(told))).toBe(lacking.length === 0);
    expect(wouldWake(view({ ...told, armed: false }))).toBe(false);
  });
});

describe('the phones that the crew count on', () => {
  test('nobody has armed a phone: nothing is expected', () => {
    const state = createPhones(0);
    expect(look(state, [at(100_000, 'a', { armed: false })], 100_000).raise).toMatchObject({ raised: false });
  });

  test('the last one goes: 15 s after it was last heard the boat warns, and names it', () => {
    const state = createPhones(0);
    look(state, [at(1000, 'a')], 1000);
    expect(look(state, [], 1000 + LIMIT - 1)).toEqual({ changed: false });
    const { raise } = look(state, [], 1000 + LIMIT);
    expect(raise).toMatchObject({ raised: true });
    expect(raise?.text).toBe(
      'No armed phone would wake anybody: bunk is not heard. Arm a phone again, or disarm it on purpose.',
    );
    expect(gone(state, [])).toMatchObject([{ name: 'bunk', silent: true }]);
    expect(look(state, [at(30_000, 'a')], 30_000).raise).toMatchObject({ raised: false });
  });

  test('one that is there but would wake nobody is as good as gone; the reasons are told', () => {
    const state = createPhones(0);
    look(state, [at(1000, 'a'), at(1000, 'b', { name: 'mate' })], 1000);
    const pages = [at(20_000, 'a', { sound: false }), at(20_000, 'b', { name: 'mate', visible: false })];
    expect(look(state, pages, 20_000).raise).toMatchObject({
      raised: true,
      text: expect.stringContaining('bunk cannot sound; mate shows something else or is locked'),
    });
  });

  test('another armed phone that would wake somebody is enough', () => {
    const state = createPhones(0);
    look(state, [at(1000, 'a'), at(1000, 'b')], 1000);
    expect(look(state, [at(60_000, 'b')], 60_000).raise).toMatchObject({ raised: false });
    expect(gone(state, [at(60_000, 'b')])).toHaveLength(1);
  });

  test('disarmed on purpose it is not missed', () => {
    const state = createPhones(0);
    look(state, [at(1000, 'a')], 1000);
    expect(look(state, [at(2000, 'a', { armed: false })], 2000).changed).toBe(true);
    expect(look(state, [], 60_000).raise).toMatchObject({ raised: false });
  });

  test('a second, older page of the same phone does not arm it again', () => {
    const state = createPhones(0);
    look(state, [at(1000, 'a')], 1000);
    const both = [at(1000, 'a', { silent: true }), at(3000, 'a', { armed: false })];
    look(state, both, 3000);
    expect(state.expected).toEqual({});
  });

  test('a phone that may only look neither counts nor disarms', () => {
    const state = createPhones(0);
    look(state, [at(1000, 'a')], 1000);
    const guest = at(30_000, 'a', { armed: false, mayAnswer: false });
    const other = at(30_000, 'g', { mayAnswer: false });
    expect(look(state, [guest, other], 30_000).raise).toMatchObject({ raised: true });
  });

  test('arming another phone forgets the one that is gone', () => {
    const state = createPhones(0);
    look(state, [at(1000, 'a')], 1000);
    look(state, [at(30_000, 'b', { name: 'mate' })], 30_000);
    look(state, [at(31_000, 'b', { armed: false })], 31_000);
    expect(look(state, [], 90_000).raise).toMatchObject({ raised: false });
  });

  test('weighing and aweigh expect nothing; the next mark does again', () => {
    const state = createPhones(0);
    look(state, [at(1000, 'a')], 1000);
    expect(rest(state)).toBe(true);
    expect(look(state, [], 60_000).raise).toMatchObject({ raised: false });
    expect(expectAgain(state, 60_000)).toBe(true);
    expect(look(state, [], 60_000 + LIMIT - 1).raise).toBeUndefined();
    expect(look(state, [], 60_000 + LIMIT).raise).toMatchObject({ raised: true });
  });

  test('after a restart they are expected back within the limit', () => {
    const before = createPhones(0);
    look(before, [at(1000, 'a')], 1000);
    const after = createPhones(500, JSON.parse(JSON.stringify(before)));
    expect(look(after, [], 500 + LIMIT - 1).raise).toBeUndefined();
    expect(look(after, [], 500 + LIMIT).raise).toMatchObject({ raised: true });
  });
});

describe('the daemon', () => {
  test('keeps over its own restart which phone is counted on, and lists it as gone', async () => {
    const data = emptyFolder();
    const settings = toSettings(commonBoat());
    const feeder = () => ({ stop: async () => {} });
    let daemon = await daemonAtHand({ settings, data, feeder });
    const socket = new WebSocket(`ws://127.0.0.1:${daemon.port}/live?page=watch&name=bunk`);
    await new Promise((resolve) => socket.once('open', resolve));
    const pulse = { type: 'pulse', visible: true, sound: true, armed: true, wakeLock: 'held' };
    socket.send(JSON.stringify({ ...pulse, phone: '0123456789abcdef' }));
    const pages = async () => ((await (await api(daemon, '/state')).json()) as State).pages;
    await expect.poll(pages).toMatchObject([{ name: 'bunk', armed: true, silent: false, wakeLock: 'held' }]);
    // Kept at the daemon's next look.
    await expect.poll(() => existsSync(join(data, 'phones.json'))).toBe(true);
    await daemon.stop('a test');
    socket.terminate();
    daemon = await daemonAtHand({ settings, data, feeder });
    expect(await pages()).toMatchObject([{ name: 'bunk', armed: true, silent: true }]);
    await daemon.stop('a test');
  });
});
