import { describe, expect, test } from 'vitest';
import { createAccess } from '../../../server/api/access.ts';
import { createTally } from '../../../server/api/tally.ts';
import { isA, KEY, PHONE, type Refusal, rig } from './help.ts';

const COMMANDS: [string, string, unknown?][] = [
  ['POST', 'mark', {}],
  ['POST', 'weigh/aweigh'],
  ['POST', 'weigh/undo-aweigh'],
  ['POST', 'weigh/hold-wind'],
  ['PATCH', 'watch', { veered: 40 }],
  ['POST', 'weigh'],
  ['DELETE', 'weigh'],
  ['POST', 'signals', { signal: 'stop' }],
  ['POST', 'alerts/shoal.1/acknowledge'],
  ['POST', 'alerts/shoal.1/silence'],
];
const LOOKS = ['state', 'track', 'health', 'metrics', 'openapi.json'];

describe('who may command', () => {
  test.each(COMMANDS)('another device without the key may not: %s %s', async (method, path, body) => {
    const { ask, desk } = await rig();
    const reply = await ask(method, path, body, { from: PHONE });
    expect(reply).toMatchObject({ status: 401, json: { type: 'urn:hawse:problem:key-needed' } });
    expect(reply.headers['www-authenticate']).toBe('Bearer realm="hawse"');
    expect(reply.json.detail).toContain('/?key=');
    expect(desk.commands).toEqual([]);
  });

  test('it is told so before its body is looked at', async () => {
    const { ask } = await rig();
    expect((await ask('POST', 'mark', { lat: 'x' }, { from: PHONE })).status).toBe(401);
  });

  test.each(LOOKS)('it may look: %s', async (path) => {
    const { ask } = await rig();
    expect((await ask('GET', path, undefined, { from: PHONE })).status).toBe(200);
  });

  test('the address with the key gives the key to the browser, and shows it to nobody else', async () => {
    const { ask, desk } = await rig();
    const reply = await ask('GET', `/weigh?key=${encodeURIComponent(KEY)}`, undefined, { from: PHONE });
    expect(reply).toMatchObject({
      status: 303,
      headers: { location: '/weigh', 'cache-control': 'no-store' },
    });
    const given = String(reply.headers['set-cookie']);
    expect(given).toMatch(/; HttpOnly; SameSite=Strict/);
    const cookie = given.split(';')[0]!;
    const done = await ask('POST', 'mark', {}, { from: PHONE, headers: { cookie: `a=b; ${cookie}` } });
    expect(done.status).toBe(200);
    expect(desk.commands[0]!.by).toBe(PHONE);
  });

  test('a program bears the key in its header', async () => {
    const { ask } = await rig();
    const headers = { authorization: `Bearer ${KEY}` };
    expect((await ask('POST', 'weigh', undefined, { from: PHONE, headers })).status).toBe(200);
  });

  test.each([
    { authorization: 'Bearer nonsense' },
    { authorization: `Bearer ${KEY}x` },
    { cookie: 'hawse-key=' },
    { cookie: 'hawse-key=%zz' },
  ])('a wrong key is no key: %j', async (headers) => {
    const { ask } = await rig();
    const reply = await ask('POST', 'mark', {}, { from: PHONE, headers });
    expect(reply).toMatchObject({ status: 401, json: { type: 'urn:hawse:problem:key-wrong' } });
    const visit = await ask('GET', '/?key=nonsense', undefined, { from: PHONE });
    expect(visit).toMatchObject({ status: 401, headers: {} });
    expect(visit.headers['set-cookie']).toBeUndefined();
  });

  test('an empty key opens nothing', async () => {
    const { ask } = await rig({ key: '' });
    expect((await ask('GET', '/?key=', undefined, { from: PHONE })).status).toBe(401);
    const headers = { cookie: 'hawse-key=' };
    expect((await ask('POST', 'mark', {}, { from: PHONE, headers })).status).toBe(401);
    expect((await ask('POST', 'mark', {})).status).toBe(200);
  });

  test('guessing ends after 30 wrong keys a minute, for that address and not for others', async () => {
    const { ask } = await rig();
    const guess = (key: string, from: string) =>
      ask('POST', 'mark', {}, { from, headers: { authorization: `Bearer ${key}` } });
    for (let i = 0; i < 30; i++) expect((await guess(`guess ${i}`, PHONE)).status).toBe(401);
    const late = await guess(KEY, PHONE);
    expect(late).toMatchObject({ status: 429, json: { type: 'urn:hawse:problem:too-many-keys' } });
    expect((await ask('GET', `/?key=${KEY}`, undefined, { from: PHONE })).status).toBe(429);
    expect((await guess(KEY, '192.0.2.24')).status).toBe(200);
    expect((await ask('GET', 'state', undefined, { from: PHONE })).status).toBe(200);
  });

  test('a request that a proxy on this computer passes on is not this computer’s own', async () => {
    const { ask } = await rig();
    for (const headers of [{ 'x-forwarded-for': '203.0.113.5' }, { forwarded: 'for=203.0.113.5' }])
      expect((await ask('POST', 'mark', {}, { headers })).status).toBe(401);
  });

  test.each(['127.0.0.1', '127.8.8.8', '::1', '::ffff:127.0.0.1'])('this computer: %s', async (from) => {
    const { ask, desk } = await rig();
    expect((await ask('POST', 'mark', {}, { from })).status).toBe(200);
    expect(desk.commands[0]!.by).toBe('this computer');
  });

  test.each(['::ffff:192.0.2.1', 'fe80::1', '128.0.0.1', '::ffff:127.0.0.1.evil'])(
    'not this computer: %s',
    async (from) => {
      const { ask } = await rig();
      expect((await ask('POST', 'mark', {}, { from })).status).toBe(401);
    },
  );

  test('a page knows whether it may command, and too many guesses are not answered over the socket either', async () => {
    const it = await rig({ listen: true });
    const snapshot = async (headers: Record<string, string>) => {
      const page = await it.page('', headers);
      const told = await page.hears(isA('snapshot'));
      await page.leaves();
      return told.mayCommand;
    };
    const proxied = { 'x-forwarded-for': PHONE };
    expect(await snapshot({})).toBe(true);
    expect(await snapshot(proxied)).toBe(false);
    const right = { ...proxied, cookie: `hawse-key=${encodeURIComponent(KEY)}` };
    expect(await snapshot(right)).toBe(true);
    for (let i = 0; i < 30; i++) expect(await snapshot({ ...proxied, cookie: `hawse-key=${i}` })).toBe(false);
    expect(await snapshot(right)).toBe(false);
  });

  test('the author: a name that the device tells, cleaned, else its address', async () => {
    const { ask, desk } = await rig();
    const as = (name: string) => ask('POST', 'mark', {}, { headers: { 'hawse-name': name } });
    await as(encodeURIComponent('Jürgens\u202e  Telefon\n'));
    await as('%20');
    await as('x'.repeat(500));
    expect(desk.commands.map(({ by }) => by)).toEqual(['Jürgens Telefon', 'this computer', 'x'.repeat(40)]);
    expect(await as('%zz')).toMatchObject({ status: 400, json: { errors: [{ in: 'header' }] } });
  });

  test('many requests from another device are limited, from this computer they are not', async () => {
    const { ask } = await rig();
    let last = 0;
    for (let i = 0; i < 1201; i++) last = (await ask('GET', 'nights', undefined, { from: PHONE })).status;
    const reply = await ask('GET', 'nights', undefined, { from: PHONE });
    expect([last, reply.status]).toEqual([429, 429]);
    expect(reply.json).toMatchObject({ type: 'urn:hawse:problem:too-many', status: 429 });
    expect((await ask('GET', 'nights')).status).toBe(501);
  });
});

describe('pages of other sites', () => {
  const HOSTS_REFUSED = [
    'evil.example',
    'evil.example:8274',
    '127.0.0.1.evil.example',
    'localhost.evil',
    '[::1',
    'a b',
  ];

  test.each(HOSTS_REFUSED)('a request under the name "%s" is misdirected', async (host) => {
    const { ask } = await rig();
    for (const path of ['state', '/', '/nowhere']) {
      const reply = await ask('GET', path, undefined, { headers: { host } });
      expect(reply).toMatchObject({ status: 421, json: { type: 'urn:hawse:problem:other-host' } });
    }
  });

  test.each(['localhost:8274', '192.0.2.5:8274', '[::1]:8274', '[fe80::1]', 'LOCALHOST', 'boat.example'])(
    'a request under "%s" is served',
    async (host) => {
      const { ask } = await rig();
      expect((await ask('GET', 'state', undefined, { headers: { host } })).status).toBe(200);
    },
  );

  test.each(['http://evil.example', 'null', 'http://localhost:81', 'file://', 'http://localhost.evil', 'x'])(
    'a request from a page of %s is refused, even on this computer',
    async (origin) => {
      const { ask, desk } = await rig();
      const headers = { host: 'localhost:8274', origin };
      for (const [method, path] of [
        ['POST', 'weigh'],
        ['GET', 'state'],
      ] as const) {
        const reply = await ask(method, path, undefined, { headers });
        expect(reply).toMatchObject({ status: 403, json: { type: 'urn:hawse:problem:other-site' } });
      }
      expect(desk.commands).toEqual([]);
    },
  );

  test('the boat’s own pages are served, over https too', async () => {
    const { ask } = await rig();
    for (const origin of ['http://localhost:8274', 'https://localhost:8274']) {
      const headers = { host: 'localhost:8274', origin };
      expect((await ask('POST', 'weigh/aweigh', undefined, { headers })).status).not.toBe(403);
    }
  });

  test('the live socket keeps them out as well', async () => {
    const it = await rig({ listen: true });
    const refusal = (headers: Record<string, string>) =>
      it.page('', headers).then(
        () => undefined,
        (error: unknown) => error as Refusal,
      );
    expect(await refusal({ origin: 'http://evil.example' })).toMatchObject({ status: 403 });
    expect(await refusal({ host: 'evil.example' })).toMatchObject({ status: 421 });
    expect(await refusal({ origin: `http://127.0.0.1:${it.port}` })).toBeUndefined();
  });
});

describe('the tally of wrong keys', () => {
  test('its memory is bounded: the oldest addresses are forgotten', () => {
    const tally = createTally(60_000);
    for (let i = 0; i < 10_000; i++) tally.add(`2001:db8::${i.toString(16)}`);
    expect(tally.count('2001:db8::0')).toBe(0);
    expect(tally.count(`2001:db8::${(9999).toString(16)}`)).toBe(1);
  });

  test('a window that is over starts anew', () => {
    const tally = createTally(0);
    tally.add('a');
    expect(tally.count('a')).toBe(0);
  });

  test('the key itself is judged whole', () => {
    const { judge } = createAccess('abc');
    const request = { socket: { remoteAddress: PHONE }, headers: {} } as never;
    expect(['abc', 'ab', 'abcd', 'ABC', ''].map((key) => judge(key, request))).toEqual([
      'may-command',
      'wrong-key',
      'wrong-key',
      'wrong-key',
      'wrong-key',
    ]);
  });
});
