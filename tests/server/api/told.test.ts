import { describe, expect, test } from 'vitest';
import { AT, believableAlert, believableState } from './fakeDesk.ts';
import { isA, known, QUICK, rig, setting } from './help.ts';

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
