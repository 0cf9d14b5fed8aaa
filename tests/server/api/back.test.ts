import { describe, expect, test } from 'vitest';
import type { ServerMessage } from '../../../shared/messages.ts';
import { AT } from './fakeDesk.ts';
import { isA, known, QUICK, rig, setting } from './help.ts';

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
    await back.hears(isA('pulse'));
    const resumed = back.told.find(isA('pulse'))!.seq;
    const missed = stays.texts.filter((_, index) => {
      const told = stays.told[index]!;
      return told.seq > seq && told.seq <= resumed && told.type !== 'snapshot' && told.type !== 'pulse';
    });
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
