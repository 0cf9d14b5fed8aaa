import { describe, expect, test } from 'vitest';
import type { ServerMessage } from '../../../shared/messages.ts';
import type { State } from '../../../shared/state.ts';
import { AT, believableAlert, believableState } from './fakeDesk.ts';
import { counted, isA, type Page, rig } from './help.ts';

/** Quick rounds and hardly any pulses, so that tests need not wait and pulses do not stand between. */
const QUICK = { coalesceMs: 10, beatMs: 60_000 };

/** What a page knows after all that it was told, put together as pages do. */
function known(told: readonly ServerMessage[]): { state: State; track: number; seq: number } {
  let state: State | undefined;
  let track = 0;
  let seq = Number.NaN;
  for (const message of told) {
    if (message.type === 'snapshot') [state, track] = [message.state, message.track.length];
    else if (message.type === 'track') track += message.append.length;
    else if (message.type === 'update') {
      state = { ...state!, ...message.set };
      for (const member of message.unset ?? []) delete state[member];
    }
    if (!isA('pulse')(message) && !isA('refused')(message)) seq = message.seq;
  }
  return { state: state!, track, seq };
}

const setting =
  (report: string) =>
  (message: ServerMessage): boolean =>
    message.type === 'update' && message.set.report === report;

describe('what a page is told', () => {
  test('at first everything', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const page = await it.page('page=watch&name=bunk');
    const { state, track, at, mayCommand } = await page.hears(isA('snapshot'));
    expect(state).toEqual(believableState());
    expect([track.length, at, mayCommand]).toEqual([60, AT, true]);
  });

  test('then what changes, by member and whole, and only that', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const page = await it.page('page=watch&name=bunk');
    await page.hears(isA('update'));
    const before = page.told.length;
    it.desk.now.at = AT + 1;
    it.desk.now.watch.veered = 45;
    it.api.changed();
    const update = await page.hears((message) => isA('update')(message) && message.set.watch?.veered === 45);
    expect(Object.keys((update as { set: object }).set).sort()).toEqual(['at', 'watch']);
    expect(page.told.length).toBe(before + 1);
  });

  test('a member that is gone is unset', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    it.desk.now.weigh = { since: AT };
    const page = await it.page();
    expect((await page.hears(isA('snapshot'))).state.weigh).toEqual({ since: AT });
    delete it.desk.now.weigh;
    it.api.changed();
    await page.hears((message) => isA('update')(message) && message.unset?.join() === 'weigh');
    expect(known(page.told).state).not.toHaveProperty('weigh');
    // The very same again is news again.
    it.desk.now.weigh = { since: AT };
    it.api.changed();
    await page.hears((message) => isA('update')(message) && message.set.weigh?.since === AT);
  });

  test('what has changed since the last round, when a new page comes', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    await (await it.page()).hears(isA('update'));
    await new Promise((resolve) => setTimeout(resolve, 30));
    it.desk.now.report = 'nobody has said that this changed';
    const { state } = await (await it.page()).hears(isA('snapshot'));
    expect(state.report).toBe('nobody has said that this changed');
  });

  test('nothing, when only time has passed', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const page = await it.page();
    await page.hears(isA('update'));
    const before = page.told.length;
    for (let i = 1; i <= 5; i++) {
      it.desk.now.at = AT + i;
      it.api.changed();
      await new Promise((resolve) => setTimeout(resolve, 12));
    }
    it.desk.now.report = 'news';
    it.api.changed();
    await page.hears(setting('news'));
    expect(page.told.length).toBe(before + 1);
  });

  test('many changes become few updates, and the last one is always told', async () => {
    const it = await rig({ listen: true, timing: { ...QUICK, coalesceMs: 100 } });
    const page = await it.page();
    await page.hears(isA('update'));
    const before = page.told.length;
    for (let i = 1; i <= 1000; i++) {
      it.desk.now.report = `report ${i}`;
      it.api.changed();
    }
    await page.hears(setting('report 1000'));
    expect(page.told.length - before).toBeLessThanOrEqual(2);
  });

  test('an alert event and the list of alerts at once, whatever else waits', async () => {
    const it = await rig({ listen: true, timing: { ...QUICK, coalesceMs: 60_000 } });
    const page = await it.page();
    await page.hears(isA('snapshot'));
    const drag = { ...believableAlert(), id: 'drag.2', kind: 'drag' as const };
    it.desk.now.alerts.push(drag);
    it.desk.now.watch.veered = 99;
    it.api.changed();
    const { id, kind, priority, state, text } = drag;
    const event = { event: 'alert' as const, t: AT, id, kind, priority, state, text };
    it.api.event(event);
    const update = await page.hears((message) => isA('update')(message) && message.set.alerts?.length === 2);
    expect((update as { set: object }).set).not.toHaveProperty('watch');
    const told = await page.hears(isA('event'));
    expect(told.event).toEqual(event);
    expect(told.seq).toBe(update.seq - 1);
  });

  test('track points as they come', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const page = await it.page();
    it.api.trackPoint({ lat: 1, lon: 2, at: AT + 3 });
    const { append, at } = await page.hears(isA('track'));
    expect([append, at]).toEqual([[{ lat: 1, lon: 2, at: AT + 3 }], AT + 3]);
  });

  test('a pulse in every beat with the number of the latest message and the age of the last fix', async () => {
    const it = await rig({ listen: true, timing: { coalesceMs: 10, beatMs: 20 } });
    const page = await it.page();
    const pulse = await page.hears(isA('pulse'));
    expect(pulse.lastFixAge).toBe(0.4);
    const { seq } = known(page.told.slice(0, page.told.indexOf(pulse)));
    expect(pulse.seq).toBe(seq);
    delete it.desk.now.vessel.ages.position;
    await page.hears((message) => isA('pulse')(message) && message.lastFixAge === undefined);
  });

  test('numbers rise by one with every message that changes something', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const page = await it.page();
    for (let i = 0; i < 50; i++) {
      it.desk.now.report = `report ${i}`;
      it.api.event({ event: 'note', t: AT, text: String(i) });
      it.api.changed();
    }
    await page.hears(setting('report 49'));
    const [snapshot, ...rest] = page.told;
    expect(rest.map(({ seq }) => seq)).toEqual(rest.map((_, index) => snapshot!.seq + 1 + index));
  });

  test('a desk that fails: no pulse pretends that all is well, and the api goes on when it recovers', async () => {
    const it = await rig({ listen: true, timing: { coalesceMs: 10, beatMs: 20 } });
    const page = await it.page();
    await page.hears(isA('pulse'));
    const { state: tell } = it.desk;
    let asked = 0;
    it.desk.state = () => {
      asked++;
      throw new Error('broken');
    };
    const before = page.told.length;
    it.api.changed();
    it.api.event({ event: 'note', t: AT, text: 'still told' });
    while (asked < 5) await new Promise((resolve) => setTimeout(resolve, 10));
    expect(page.told.slice(before).map(({ type }) => type)).toEqual(['event']);
    it.desk.state = tell;
    it.desk.now.report = 'back';
    it.api.changed();
    await page.hears(setting('back'));
  });

  test('a desk that fails from the start: the page is not let believe that it is watched', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    it.desk.state = () => {
      throw new Error('broken');
    };
    const page = await it.page();
    expect((await page.closed).code).toBe(1011);
    expect(page.told).toEqual([]);
  });
});

describe('a page that comes back', () => {
  test('gets what it missed, to the byte as the others were told', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const stays = await it.page();
    const leaves = await it.page();
    await leaves.hears(isA('snapshot'));
    await leaves.leaves();
    const { seq } = known(leaves.told);
    for (let i = 0; i < 40; i++) it.api.trackPoint({ lat: i, lon: 2, at: AT + i });
    it.desk.now.report = 'missed';
    it.api.changed();
    await stays.hears(setting('missed'));
    const back = await it.page(`since=${seq}`);
    await back.hears(setting('missed'));
    const missed = stays.texts.filter(
      (_, index) => stays.told[index]!.seq > seq && stays.told[index]!.type !== 'snapshot',
    );
    expect(back.texts.slice(0, missed.length)).toEqual(missed);
    expect(back.told[missed.length]!.type).toBe('pulse');
  });

  test('hears a word at once when it has missed nothing', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const page = await it.page();
    await page.hears(isA('update'));
    const { seq } = known(page.told);
    const again = await it.page(`since=${seq}`);
    expect((await again.hears(() => true)).type).toBe('pulse');
  });

  test.each(['0', '1', '-1', 'x', '', '1.5', '99999999999999999999', '%00'])(
    'gets everything when its number was never given: since=%s',
    async (since) => {
      const it = await rig({ listen: true, timing: QUICK });
      const page = await it.page(`since=${since}`);
      expect((await page.hears(() => true)).type).toBe('snapshot');
    },
  );

  test('gets everything when it was away for more than 512 messages, and not before', async () => {
    const it = await rig({ listen: true, timing: { ...QUICK, coalesceMs: 60_000 } });
    const page = await it.page();
    const { seq } = await page.hears(isA('snapshot'));
    for (let i = 0; i < 512; i++) it.api.trackPoint({ lat: 0, lon: 0, at: AT + i });
    const justInTime = await it.page(`since=${seq}`);
    await justInTime.hears(isA('pulse'));
    expect(justInTime.told.filter(isA('track'))).toHaveLength(512);
    it.api.trackPoint({ lat: 0, lon: 0, at: AT + 512 });
    const late = await it.page(`since=${seq}`);
    expect((await late.hears(() => true)).type).toBe('snapshot');
  });

  test('with a number of an earlier run of the daemon it gets everything', async () => {
    const first = await rig({ listen: true, timing: QUICK });
    const { seq } = await (await first.page()).hears(isA('snapshot'));
    const second = await rig({ listen: true, timing: QUICK });
    for (let i = 0; i < 100; i++) second.api.trackPoint({ lat: 0, lon: 0, at: AT + i });
    const page = await second.page(`since=${seq}`);
    expect((await page.hears(() => true)).type).toBe('snapshot');
  });

  test('any two pages, however they came and went, know the same in the end', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const stays = await it.page();
    await stays.hears(isA('snapshot'));
    let goes = await it.page();
    let told: ServerMessage[] = [];
    for (let i = 0; i < 60; i++) {
      it.desk.now.at = AT + i;
      it.desk.now.report = `report ${i}`;
      if (i % 3 === 0) it.desk.now.weigh = { since: AT + i };
      if (i % 3 === 1) delete it.desk.now.weigh;
      // There and back again between two rounds.
      if (i % 2 === 0) it.desk.now.watch.veered = 40 + (i % 4);
      if (i % 5 === 0) {
        const point = { lat: i, lon: i, at: AT + i };
        it.desk.points.push(point);
        it.api.trackPoint(point);
      }
      it.api.changed();
      if (i % 7 === 0) {
        await goes.leaves();
        told = [...told, ...goes.told];
        goes = await it.page(i % 2 === 0 ? `since=${known(told).seq}` : '');
      }
      await new Promise((resolve) => setTimeout(resolve, i % 4 === 0 ? 15 : 0));
    }
    const end = { ...it.desk.now, report: 'end' };
    it.desk.now = end;
    it.api.changed();
    await Promise.all([stays.hears(setting('end')), goes.hears(setting('end'))]);
    const last = known([...told, ...goes.told]);
    expect(last.state).toEqual(known(stays.told).state);
    expect({ ...last.state, pages: [] }).toEqual({ ...end, pages: [] });
    expect(last.track).toBe(72);
  });
});

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

  test('a frame of more than 64 KiB ends the connection, not the daemon', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const page = await it.page();
    page.says('x'.repeat(64 * 1024 + 1));
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
