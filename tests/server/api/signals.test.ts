import { describe, expect, test } from 'vitest';
import { AT } from './fakeDesk.ts';
import { isA, type Page, PHONE, rig } from './help.ts';

const timing = { coalesceMs: 10, beatMs: 60_000, helmLimitMs: 150 };

async function weighing() {
  const it = await rig({ listen: true, timing });
  it.desk.now.weigh = { since: AT };
  return it;
}

/** Shows every signal that it is told of, as a helm page does. */
function showsAll(page: Page): void {
  page.socket.on('message', (data) => {
    const message = JSON.parse(String(data));
    const signal = message.set?.weigh?.lastSignal;
    if (signal) page.says({ type: 'shown', signal: signal.number });
  });
}

/** Tells the pages of a signal as the engine does: while the order is still being written to the disk. */
const asTheEngineDoes = (it: Awaited<ReturnType<typeof weighing>>) => {
  it.desk.signalled = (number) =>
    it.api.event({ event: 'signal', t: AT, by: 'foredeck', signal: 'any', number });
};

describe('foredeck to helm', () => {
  test.each(['stop', 'up-and-down', 'lead:1', 'lead:12', 'out:0', 'out:42'])(
    '"%s" is answered when the helm page has shown it',
    async (signal) => {
      const it = await weighing();
      asTheEngineDoes(it);
      showsAll(await it.page('page=weigh&name=helm'));
      const reply = await it.ask('POST', 'signals', { signal });
      expect(reply).toMatchObject({ status: 200, json: { number: 1, seenBy: 'helm' } });
    },
  );

  test('also when the helm is quicker than the disk', async () => {
    const it = await weighing();
    asTheEngineDoes(it);
    const helm = await it.page('page=weigh');
    showsAll(helm);
    const { command } = it.desk;
    it.desk.command = async (order, by) => {
      const answer = await command(order, by);
      await helm.hears((message) => isA('update')(message) && message.set.weigh !== undefined);
      await new Promise((resolve) => setTimeout(resolve, 30));
      return answer;
    };
    expect((await it.ask('POST', 'signals', { signal: 'heaving' })).status).toBe(200);
  });

  test('several at once are each answered for their own number', async () => {
    const it = await weighing();
    asTheEngineDoes(it);
    const helm = await it.page('page=weigh');
    const orders = ['heaving', 'snubbed', 'stop'].map((signal) => it.ask('POST', 'signals', { signal }));
    await helm.hears(
      (message) => isA('event')(message) && 'number' in message.event && message.event.number === 3,
    );
    helm.says({ type: 'shown', signal: 3 });
    helm.says({ type: 'shown', signal: 1 });
    const replies = await Promise.all(orders);
    expect(replies.map(({ status }) => status)).toEqual([200, 504, 200]);
  });

  test('without a helm page: 504 says that none is open', async () => {
    const it = await weighing();
    await it.page('page=watch');
    const { status, json } = await it.ask('POST', 'signals', { signal: 'stop' });
    expect(status).toBe(504);
    expect(json).toMatchObject({ type: 'urn:hawse:problem:not-shown' });
    expect(json.detail).toMatch(/not seen "stop".*No weigh page is open/);
  });

  test('with one that is out of view, or in view and silent: 504 says which', async () => {
    const it = await weighing();
    const helm = await it.page('page=weigh&name=cockpit');
    expect((await it.ask('POST', 'signals', { signal: 'stop' })).json.detail).toMatch(
      /cockpit, but not in view/,
    );
    helm.says({ type: 'pulse', visible: true, sound: true });
    await helm.hears((message) => isA('update')(message) && message.set.pages?.[0]?.visible === true);
    expect((await it.ask('POST', 'signals', { signal: 'stop' })).json.detail).toMatch(
      /cockpit, but has not shown/,
    );
  });

  test('a page that shows another number, or is not at the helm, does not count', async () => {
    const it = await weighing();
    const helm = await it.page('page=weigh');
    const watcher = await it.page('page=watch');
    const order = it.ask('POST', 'signals', { signal: 'stop' });
    helm.says({ type: 'shown', signal: 7 });
    watcher.says({ type: 'shown', signal: 1 });
    expect((await order).status).toBe(504);
  });

  test('a number that was shown before the signal was given does not count: numbers begin anew with each weighing', async () => {
    const it = await weighing();
    const helm = await it.page('page=weigh');
    helm.says({ type: 'shown', signal: 1 });
    helm.says({ type: 'pulse', visible: true, sound: true });
    await helm.hears((message) => isA('update')(message) && message.set.pages?.[0]?.visible === true);
    expect((await it.ask('POST', 'signals', { signal: 'stop' })).status).toBe(504);
  });

  test('a device that may only look cannot make the foredeck believe that the helm knows', async () => {
    const it = await weighing();
    asTheEngineDoes(it);
    showsAll(await it.page('page=weigh', { 'x-forwarded-for': PHONE }));
    const { status, json } = await it.ask('POST', 'signals', { signal: 'stop' });
    expect(status).toBe(504);
    expect(json.detail).toMatch(/may only look/);
  });
});
