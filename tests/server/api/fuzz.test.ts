import { Agent, request } from 'node:http';
import { connect } from 'node:net';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { plan } from '../../../shared/plan/plan.ts';
import { isA, openPage, type Page, PHONE, rig } from './help.ts';

const SEED = 20_270_512;
const ROUTES: [string, string][] = [
  ['POST', 'mark'],
  ['POST', 'weigh/aweigh'],
  ['POST', 'weigh/undo-aweigh'],
  ['POST', 'check'],
  ['PUT', 'check/items'],
  ['POST', 'weigh/hold-wind'],
  ['PATCH', 'watch'],
  ['POST', 'weigh'],
  ['DELETE', 'weigh'],
  ['POST', 'signals'],
  ['POST', 'alerts/shoal.1/acknowledge'],
  ['POST', 'alerts/shoal.1/silence'],
  ['POST', 'plan'],
];
const WORDS = [
  'lat',
  'lon',
  'bearing',
  'distance',
  'fromTrack',
  'veered',
  'circleRadius',
  'limits',
  'depthBelow',
  'windAbove',
  'sectors',
  'signal',
  '__proto__',
  'constructor',
  'toString',
  'depth',
  'wind',
  'chain',
];
const value = fc.oneof(
  fc.double(),
  fc.integer({ min: -2, max: 60 }),
  fc.constantFrom<unknown>(
    null,
    true,
    '',
    'stop',
    'lead:3',
    1e308,
    -0,
    [],
    {},
    { depthBelow: 3 },
    { size: 10 },
    { windAbove: null },
  ),
  fc.jsonValue({ maxDepth: 3 }),
);
/** Objects whose members are mostly the ones that hawse knows, so that checks are met and not only the first of them. */
const nearly = fc.dictionary(fc.constantFrom(...WORDS), value, { maxKeys: 4 });
const body = fc.oneof(
  { weight: 6, arbitrary: nearly.map((told) => JSON.stringify(told)) },
  { weight: 3, arbitrary: fc.json() },
  { weight: 1, arbitrary: fc.string({ unit: 'binary' }) },
);

describe('random requests', () => {
  test('5,000 random bodies over every call: each gets a proper answer, none is an error of hawse', async () => {
    const { ask, desk } = await rig({ timing: { helmLimitMs: 1 } });
    desk.plan = plan;
    const samples = fc.sample(fc.tuple(fc.constantFrom(...ROUTES), body), { numRuns: 5000, seed: SEED });
    const statuses = new Map<number, number>();
    for (const [[method, path], raw] of samples) {
      const reply = await ask(method, path, undefined, { raw });
      statuses.set(reply.status, (statuses.get(reply.status) ?? 0) + 1);
      if (![200, 400, 409, 501, 504].includes(reply.status))
        throw new Error(`${reply.status} for ${method} ${path} ${raw}: ${reply.text}`);
      if (reply.status !== 200) expect(reply.json.detail.length).toBeGreaterThan(0);
    }
    // The fuzz is of use only when it passes the first checks now and then.
    expect(statuses.get(200)).toBeGreaterThan(100);
    expect(statuses.get(400)).toBeGreaterThan(1000);
    expect((await ask('GET', 'health')).status).toBe(200);
    expect(({} as { lat?: unknown }).lat).toBeUndefined();
  });

  test('2,000 random addresses and headers', async () => {
    const it = await rig({ listen: true });
    const agent = new Agent({ keepAlive: true });
    const address = fc.oneof(
      fc.webPath().map((path) => `/api/v1${path}`),
      fc.webPath(),
      fc
        .tuple(fc.constantFrom('from', 'to', 'step', 'key'), fc.string())
        .map(([name, text]) => `/api/v1/track?${name}=${encodeURIComponent(text)}`),
      fc
        .string({ unit: fc.constantFrom('%', '/', '.', 'a', '0', '?', '&', '=', '\\', '~') })
        .map((text) => `/${text}`),
    );
    const header = fc.record(
      {
        'hawse-name': fc.string(),
        authorization: fc.string(),
        cookie: fc.string().map((text) => `hawse-key=${text}`),
        origin: fc.oneof(fc.webUrl(), fc.string()),
        host: fc.oneof(
          fc.domain(),
          fc.ipV4(),
          fc.ipV6().map((ip) => `[${ip}]`),
          fc.constant('localhost'),
        ),
        'content-type': fc.constantFrom('application/json', 'text/plain', 'a/b; c=d', ''),
      },
      { requiredKeys: [] },
    );
    const samples = fc.sample(
      fc.tuple(fc.constantFrom('GET', 'POST', 'DELETE', 'PATCH', 'PUT', 'OPTIONS', 'HEAD'), address, header),
      { numRuns: 2000, seed: SEED },
    );
    const statuses = new Set<number>();
    for (const [method, path, headers] of samples) {
      const status = await new Promise<number>((resolve, reject) => {
        const sent = request({ agent, port: it.port, method, path, headers }, (answer) => {
          answer.resume().on('end', () => resolve(answer.statusCode ?? 0));
        });
        sent.on('error', reject).end();
      });
      statuses.add(status);
      if (status >= 500 && status !== 501)
        throw new Error(`${status} for ${method} ${path} ${JSON.stringify(headers)}`);
    }
    agent.destroy();
    expect([...statuses]).toEqual(expect.arrayContaining([200, 400, 403, 404, 421]));
    expect((await it.ask('GET', 'health', undefined, { from: PHONE })).status).toBe(200);
  });
});

describe('random frames', () => {
  const member = fc.oneof(fc.boolean(), fc.integer(), fc.string(), fc.jsonValue({ maxDepth: 2 }));
  const frame = fc.oneof(
    fc
      .dictionary(fc.constantFrom('type', 'visible', 'sound', 'name', 'signal', '__proto__'), member)
      .map((told) => JSON.stringify(told)),
    fc
      .record({
        type: fc.constantFrom('pulse', 'shown', 'snapshot'),
        visible: member,
        sound: member,
        signal: member,
      })
      .map((told) => JSON.stringify(told)),
    fc.json(),
    fc.string({ unit: 'binary' }),
    fc.uint8Array({ maxLength: 300 }),
    fc.constant({ type: 'pulse', visible: true, sound: false }).map((told) => JSON.stringify(told)),
  );

  test('5,000 random frames: answered, counted, at worst the page is cut off', async () => {
    const it = await rig({ listen: true, timing: { coalesceMs: 10, beatMs: 60_000 } });
    const watcher = await it.page('name=watcher');
    const samples = fc.sample(frame, { numRuns: 5000, seed: SEED });
    let page: Page | undefined;
    let cutOff = 0;
    while (samples.length > 0) {
      page ??= await it.page('page=weigh');
      for (const told of samples.splice(0, 5)) page.socket.send(told);
      await page.read();
      if (page.socket.readyState === page.socket.OPEN) continue;
      expect((await page.closed).code).toBe(4002);
      cutOff++;
      page = undefined;
    }
    // Twenty bad ones each.
    expect(cutOff).toBeGreaterThan(100);
    it.desk.now.report = 'the watch goes on';
    it.api.changed();
    await watcher.hears((message) => isA('update')(message) && message.set.report === 'the watch goes on');
    expect((await fetch(`http://127.0.0.1:${it.port}/api/v1/health`)).status).toBe(200);
  });

  test('500 bursts of random bytes in the place of frames', async () => {
    const it = await rig({ listen: true, timing: { coalesceMs: 10, beatMs: 60_000 } });
    const head = `GET /live HTTP/1.1\r\nHost: 127.0.0.1:${it.port}\r\nConnection: Upgrade\r\nUpgrade: websocket\r\nSec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==\r\nSec-WebSocket-Version: 13\r\n\r\n`;
    for (const bytes of fc.sample(fc.uint8Array({ minLength: 2, maxLength: 200 }), {
      numRuns: 500,
      seed: SEED,
    })) {
      await new Promise<void>((resolve) => {
        const socket = connect(it.port, '127.0.0.1', () => {
          socket.write(head);
          socket.once('data', () => socket.end(bytes));
          socket.resume();
        });
        socket.on('error', () => {});
        socket.on('close', () => resolve());
      });
    }
    const page = await openPage(`ws://127.0.0.1:${it.port}/live`);
    await page.hears(isA('snapshot'));
    expect((await it.ask('GET', 'health')).status).toBe(200);
  });
});
