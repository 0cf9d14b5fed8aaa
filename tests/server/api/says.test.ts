import { describe, expect, test } from 'vitest';
import type { State } from '../../../shared/state.ts';
import { AT } from './fakeDesk.ts';
import { counted, isA, type Page, QUICK, rig, setting } from './help.ts';

describe('what a page says', () => {
  const pages = (page: Page, fits: (views: State['pages']) => boolean) =>
    page.hears(
      (message) => isA('update')(message) && message.set.pages !== undefined && fits(message.set.pages),
    );

  test('its pulse is known to all pages; its going too', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const watcher = await it.page('page=watch&name=chart%20table');
    const bunk = await it.page('page=watch&name=bunk%0A%20phone');
    it.desk.now.at = AT + 7;
    it.desk.now.report = 'later';
    it.api.changed();
    await bunk.hears(setting('later'));
    bunk.says({ type: 'pulse', visible: true, sound: true });
    await pages(watcher, (views) => views[1]?.sound === true);
    expect(it.api.pages()).toMatchObject([
      { name: 'chart table', page: 'watch', visible: false, sound: false },
      { name: 'bunk phone', page: 'watch', visible: true, sound: true, lastAt: AT + 7 },
    ]);
    bunk.says({ type: 'pulse', visible: false, sound: true, name: 'skipper' });
    await pages(watcher, (views) => views[1]?.name === 'skipper' && !views[1].visible);
    await bunk.leaves();
    await pages(watcher, (views) => views.length === 1);
  });

  test('a page of no known form of name is called unknown', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    await it.page(`page=${encodeURIComponent('<b>')}&name=${'x'.repeat(300)}`);
    expect(it.api.pages()).toMatchObject([{ page: 'unknown', name: 'x'.repeat(40) }]);
  });

  test.each([
    ['', 'not-json'],
    ['{', 'not-json'],
    ['null', 'not-valid'],
    ['[]', 'not-valid'],
    ['{"type":"mark"}', 'not-valid'],
    ['{"type":"pulse"}', 'not-valid'],
    ['{"type":"pulse","visible":1,"sound":true}', 'not-valid'],
    ['{"type":"pulse","visible":true,"sound":true,"extra":1}', 'not-valid'],
    ['{"type":"shown","signal":0}', 'not-valid'],
    ['{"type":"shown","signal":"1"}', 'not-valid'],
    ['{"__proto__":{"type":"pulse"}}', 'not-valid'],
  ])('a bad frame is answered with what is allowed, counted, and the page stays: %s', async (frame, kind) => {
    const it = await rig({ listen: true, timing: QUICK });
    const page = await it.page();
    page.says(frame);
    const { problem } = await page.hears(isA('refused'));
    expect(problem.type).toBe(`urn:hawse:problem:${kind}`);
    expect(problem.detail).toContain('Allowed: {"type":"pulse"');
    expect(await counted(it, `hawse_bad_frames_total{reason="${kind}"}`)).toBe(1);
    page.says({ type: 'pulse', visible: true, sound: true });
    await pages(page, (views) => views[0]?.visible === true);
  });

  test('a binary frame is a bad one', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const page = await it.page();
    page.socket.send(Buffer.from([1, 2, 3]));
    await page.hears(isA('refused'));
    expect(await counted(it, 'hawse_bad_frames_total{reason="binary"}')).toBe(1);
  });

  test('twenty bad frames are enough', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const page = await it.page();
    for (let i = 0; i < 30; i++) page.says('nonsense');
    expect((await page.closed).code).toBe(4002);
    expect(page.told.filter(isA('refused'))).toHaveLength(20);
    expect(await counted(it, 'hawse_dropped_sockets_total{reason="badFrames"}')).toBe(1);
    expect(it.api.pages()).toEqual([]);
  });

  test('so are far too many good ones', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const page = await it.page();
    for (let i = 0; i < 80; i++) page.says({ type: 'pulse', visible: true, sound: true });
    expect((await page.closed).code).toBe(4002);
    expect(await counted(it, 'hawse_bad_frames_total{reason="too-many"}')).toBe(20);
  });

  test('but any number over time', async () => {
    const it = await rig({ listen: true, timing: { coalesceMs: 10, beatMs: 15 } });
    const page = await it.page();
    for (let round = 0; round < 4; round++) {
      for (let i = 0; i < 20; i++) page.says({ type: 'pulse', visible: true, sound: true });
      await page.read();
      const before = page.told.length;
      await page.hears((message) => isA('pulse')(message) && page.told.indexOf(message) >= before);
    }
    await page.read();
    expect(page.told.filter(isA('refused'))).toEqual([]);
  });

  test('a frame of more than 8 KiB ends the connection, not the daemon', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const page = await it.page();
    page.says('x'.repeat(8 * 1024 + 1));
    expect((await page.closed).code).toBe(1009);
    expect(await counted(it, 'hawse_bad_frames_total{reason="protocol"}')).toBe(1);
  });
});

describe('the end', () => {
  test('goodbye is heard before the connection ends, and nobody is let in after it', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const [one, other] = [await it.page(), await it.page()];
    await it.api.goodbye('the daemon was stopped');
    for (const page of [one!, other!]) {
      expect((await page.closed).code).toBe(1001);
      expect(page.told.at(-1)).toMatchObject({ type: 'goodbye', reason: 'the daemon was stopped' });
    }
    await expect(it.page()).rejects.toMatchObject({
      status: 503,
      problem: { type: 'urn:hawse:problem:stopping' },
    });
    expect((await it.ask('GET', 'state')).status).toBe(200);
  });

  test('close ends open pages and waiting requests, and may come twice', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const page = await it.page();
    await it.api.close();
    await page.closed;
    await it.api.close();
    await expect(fetch(`http://127.0.0.1:${it.port}/api/v1/state`)).rejects.toThrow();
  });
});

describe('whether a page watches', () => {
  const pulse = {
    type: 'pulse',
    visible: true,
    sound: true,
    armed: true,
    wakeLock: 'held',
    phone: '00ff00ff00ff00ff',
  };
  const silent = (it: Awaited<ReturnType<typeof rig>>) => it.api.pages().map((view) => view.silent);

  test('three pulses missing: it does not, though its browser answers every ping; with the next pulse it does again', async () => {
    const it = await rig({ listen: true, timing: { coalesceMs: 10, beatMs: 25 } });
    const page = await it.page('page=watch&name=bunk');
    page.says(pulse);
    await expect.poll(() => it.api.phones()).toMatchObject([{ phone: pulse.phone, view: { armed: true } }]);
    await expect.poll(() => silent(it)).toEqual([true]);
    page.says({ ...pulse, charging: false, battery: 0.4 });
    await expect
      .poll(() => it.api.pages()[0])
      .toMatchObject({ charging: false, battery: 0.4, silent: false });
    page.says(pulse);
    await expect.poll(() => it.api.pages()[0]?.battery).toBeUndefined();
  });

  test('it sends pulses and takes in nothing of what it is told: it does not', async () => {
    const it = await rig({ listen: true, timing: { coalesceMs: 10, beatMs: 25 } });
    const page = await it.page('page=watch&name=bunk');
    it.desk.now.report = 'later';
    it.api.changed();
    await page.hears(setting('later'));
    const first = page.told.find(isA('snapshot'))!;
    const deaf = setInterval(() => page.says({ ...pulse, seq: first.seq }), 20);
    await expect.poll(() => silent(it)).toEqual([true]);
    clearInterval(deaf);
    const latest = page.told.at(-1)!.seq;
    page.says({ ...pulse, seq: latest });
    await expect.poll(() => silent(it)[0], { interval: 5 }).toBe(false);
  });

  test('what tells phones apart is told to no page', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const page = await it.page('page=watch&name=bunk');
    page.says(pulse);
    await expect.poll(() => it.api.phones()).toHaveLength(1);
    expect(JSON.stringify(it.api.pages())).not.toContain(pulse.phone);
  });
});
