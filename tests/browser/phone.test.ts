import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { PageView, State } from '../../shared/state.ts';
import { type Browser, button, startBrowser, type Tab } from './devtools.ts';
import { type RealBoat, startRealBoat } from './realBoat.ts';

// What a phone does at night, in a real browser driven by the raw protocol, against the real daemon. One phone through one
// night: each test goes on where the one before it left off.

let boat: RealBoat;
let browser: Browser;
let phone: Tab;
let other: Tab;
/** A page that nobody looks at and that never sounds. */
let quiet: Tab;
let hiddenAt: number;
const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

beforeAll(async () => {
  [boat, browser] = await Promise.all([startRealBoat('--seed', '7'), startBrowser()]);
  other = await browser.open('about:blank');
  // By another name of this computer: a browser's pages of one origin are one phone, armed together.
  quiet = await browser.open(`${boat.url.replace('localhost', '127.0.0.1')}/instruments`);
  // It must have loaded while it was in view: a page that is hidden before is throttled after five minutes only.
  await quiet.show();
  for (let loaded = false; !loaded; await wait(200))
    loaded = await quiet.evaluate<boolean>(`document.querySelector('.report') !== null`);
  await quiet.evaluate('window.ticks = 0; setInterval(() => window.ticks++, 1000); 0');
  await wait(1000);
  phone = await browser.open(boat.url);
  await phone.show();
  hiddenAt = performance.now();
});
afterAll(() => Promise.all([browser?.stop(), boat?.stop()]));

const state = async (): Promise<State> => (await fetch(`${boat.url}/api/v1/state`)).json();
const asBoatSees = async (page = 'watch'): Promise<PageView | undefined> =>
  (await state()).pages.find((view) => view.page === page);
const phonesAlert = async () => (await state()).alerts.find(({ subject }) => subject === 'phones');
const sound = (member: string) => phone.evaluate(`window.hawseSound.${member}`);
const eventually = <T>(what: () => Promise<T>) => expect.poll(what, { interval: 100 });
const says = (words: RegExp) =>
  expect.poll(() => phone.evaluate<string>('document.body.innerText'), { interval: 200 }).toMatch(words);
const sees = (view: Partial<PageView>) =>
  expect.poll(() => asBoatSees(), { interval: 200 }).toMatchObject(view);

describe('a phone through the night', () => {
  test('the sound is locked until a finger has touched the page; a script cannot arm it', async () => {
    await says(/would not wake you: it is not armed/);
    await says(/Roller to anchor/);
    expect(await phone.evaluate('navigator.userActivation.hasBeenActive')).toBe(false);
    await phone.evaluate(`${button('Arm this')}.click()`);
    await wait(2500);
    expect(await sound('state')).not.toBe('running');
    expect(await sound('signalsPlayed')).toBe(0);
    await sees({ armed: false, sound: false });
  });

  test('one touch unlocks the sound, plays the alarm and keeps the screen on; armed once it was heard', async () => {
    // The script's vain attempt has asked already: the person says that nothing was heard, and plays it again.
    await phone.touch(button('I heard nothing'));
    await says(/Then it would not wake you\. Turn the volume up/);
    await phone.touch(button('Play the alarm again'));
    await eventually(() => sound('state')).toBe('running');
    await eventually(() => sound('peak')).toBeGreaterThan(0.3);
    await sees({ armed: false, sound: true });
    await phone.touch(button('I heard it'));
    await sees({ armed: true, sound: true, visible: true, wakeLock: 'held', silent: false });
    await says(/would wake you now/);
    await says(/Armed on board:\s*computer would wake/);
  });

  test('a script that hangs: the tone that was scheduled ahead sounds by itself', async () => {
    await wait(2000);
    const hang = (ms: number) =>
      phone.evaluate<number>(
        `(() => { const end = performance.now() + ${ms}; while (performance.now() < end); return window.hawseSound.peak; })()`,
      );
    expect(await hang(4000)).toBe(0);
    await wait(1000);
    expect(await hang(11_000)).toBeGreaterThan(0.1);
    // The next heartbeat takes it back, and tells the hole.
    await eventually(() => sound('peak')).toBe(0);
    await says(/This computer was asleep \d\d:\d\d–\d\d:\d\d and watched nothing/);
    await phone.touch(button('Seen'));
  });

  test('behind another page it loses the wake lock, says so to the boat, and takes it again', async () => {
    await other.show();
    await sees({ visible: false, wakeLock: 'lost', armed: true });
    // Hidden it wakes nobody: the boat warns.
    await eventually(phonesAlert).toMatchObject({
      kind: 'daemon',
      priority: 'warning',
      text: expect.stringContaining('shows something else or is locked'),
    });
    await phone.show();
    await sees({ visible: true, wakeLock: 'held' });
    await eventually(phonesAlert).toMatchObject({ state: 'rectified-unacknowledged' });
  });

  test('frozen by its browser: the boat misses its pulses and warns; awake again it says how long it slept', async () => {
    await other.show();
    await phone.send('Page.enable');
    await phone.send('Page.setWebLifecycleState', { state: 'frozen' });
    await sees({ silent: true });
    await eventually(phonesAlert).toMatchObject({
      state: 'active-unacknowledged',
      text: expect.stringContaining('is not heard'),
    });
    await phone.send('Page.setWebLifecycleState', { state: 'active' });
    await phone.show();
    await says(/This computer was asleep \d\d:\d\d–\d\d:\d\d and watched nothing/);
    await sees({ silent: false, visible: true, armed: true, sound: true, wakeLock: 'held' });
    await eventually(phonesAlert).toMatchObject({ state: 'rectified-unacknowledged' });
  });

  test('the boat’s computer hangs, its sockets stay open: the phone alarms by itself, and finds back', async () => {
    const before = (await sound('played.linkLost')) as number;
    boat.pause();
    await says(/No word from the boat for \d+\ss: this page is not watching/);
    expect(await phone.evaluate(`document.querySelector('.dominant').innerText`)).toBe('—');
    await says(/would NOT wake you now/);
    await eventually(() => sound('played.linkLost')).toBeGreaterThan(before);
    boat.goOn();
    await says(/would wake you now/);
    expect(await phone.evaluate(`document.querySelector('.dominant').innerText`)).toMatch(/^\d+/);
  });

  test('loaded anew it is still armed, would wake nobody until it is touched, and says so', async () => {
    await phone.send('Page.reload');
    await says(/would NOT wake you now/);
    await says(/tap anywhere on this page/);
    await sees({ armed: true, sound: false });
    await phone.touch(`document.querySelector('.report')`);
    await sees({ armed: true, sound: true });
    await says(/would wake you now/);
  });

  test('disarmed on purpose by a hold it is not missed', async () => {
    await phone.touch(button('This computer would wake you now'));
    const [x, y] = await phone.evaluate<[number, number]>(
      `(() => { const h = document.querySelector('.phone-details .hold'); h.scrollIntoView({ block: 'center' }); const b = h.getBoundingClientRect(); return [b.x + 20, b.y + 20]; })()`,
    );
    await phone.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [{ x, y }] });
    await wait(1300);
    await phone.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
    await sees({ armed: false });
    // An alert is still open, which on a low screen leaves no room for the line: the sign in the header says it.
    await eventually(() =>
      phone.evaluate<string>(`document.querySelector('.phone-sign').getAttribute('aria-label')`),
    ).toMatch(/not armed/i);
  });

  test('hidden and silent, its timers are throttled to almost nothing, and its pulses go on', async () => {
    // This browser does so after a minute; a page that has sounded within the last half minute is spared.
    await wait(Math.max(0, hiddenAt + 75_000 - performance.now()));
    const before = await quiet.evaluate<number>('window.ticks');
    await wait(15_000);
    expect((await quiet.evaluate<number>('window.ticks')) - before).toBeLessThan(5);
    expect(await asBoatSees('instruments')).toMatchObject({ silent: false, visible: false });
    expect((await state()).at - (await asBoatSees('instruments'))!.lastAt).toBeLessThan(5);
  });
});
