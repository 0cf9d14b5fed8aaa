import type { IncomingMessage } from 'node:http';
import { describe, expect, test } from 'vitest';
import { cookieWith, noCookies } from '../../../server/api/access.ts';
import { createTally } from '../../../server/api/tally.ts';
import type { Role } from '../../../shared/access.ts';
import { expectProblem, isA, KEY, PHONE, type Refusal, type Rig, rig } from './help.ts';

const COMMANDS: [string, string, unknown?][] = [
  ['POST', 'mark', {}],
  ['POST', 'weigh/aweigh'],
  ['PATCH', 'nights/2026-11-25T2010-1', { notes: 'x' }],
  ['POST', 'weigh/undo-aweigh'],
  ['POST', 'check', { ticked: [] }],
  ['PUT', 'check/items', { items: null }],
  ['POST', 'weigh/hold-wind'],
  ['PATCH', 'watch', { veered: 40 }],
  ['POST', 'weigh'],
  ['DELETE', 'weigh'],
  ['POST', 'signals', { signal: 'stop' }],
];
const ANSWERS: [string, string, unknown?][] = [
  ['POST', 'alerts/shoal.1/acknowledge'],
  ['POST', 'alerts/shoal.1/silence'],
];
const LOOKS = ['state', 'track', 'health', 'metrics', 'openapi.json'];

/** Key of a fresh one in that role, as a program bears it. */
function bearer({ ring }: Rig, role: Role, name: string = role): Record<string, string> {
  return { authorization: `Bearer ${ring.keys.add(name, role).key}` };
}

const OPEN_TO_ALL = ['/', '/phones', 'openapi.json'];

describe('roles', () => {
  test.each([...COMMANDS, ...ANSWERS])(
    'another device without a key may not: %s %s',
    async (method, path, body) => {
      const { ask, desk } = await rig();
      const reply = await ask(method, path, body, { from: PHONE });
      expectProblem(reply, 401, 'key-needed', /This device may look; this needs .*\/phones.*hawse pair/);
      expect(reply.headers['www-authenticate']).toBe('Bearer realm="hawse"');
      expect(desk.commands).toEqual([]);
    },
  );

  test.each(COMMANDS)('with a key to acknowledge it may not: %s %s', async (method, path, body) => {
    const it = await rig();
    const headers = bearer(it, 'acknowledge', 'Mate');
    const reply = await it.ask(method, path, body, { from: PHONE, headers });
    expectProblem(
      reply,
      403,
      'role-too-low',
      /"Mate" may look, silence and acknowledge; this needs .*command/,
    );
    expect(it.desk.commands).toEqual([]);
  });

  test.each([...COMMANDS, ...ANSWERS])('with a key to look it may not: %s %s', async (method, path, body) => {
    const it = await rig();
    const reply = await it.ask(method, path, body, { from: PHONE, headers: bearer(it, 'look', 'Guest') });
    expectProblem(reply, 403, 'role-too-low', /"Guest" may look; this needs/);
    expect(it.desk.commands).toEqual([]);
  });

  test.each(ANSWERS)('with a key to acknowledge it may: %s %s', async (method, path) => {
    const it = await rig();
    const reply = await it.ask(method, path, undefined, {
      from: PHONE,
      headers: bearer(it, 'acknowledge', 'Mate'),
    });
    expect(reply.status).toBe(200);
    expect(it.desk.commands).toMatchObject([{ by: 'Mate' }]);
  });

  test('every call of the documentation that commands is in this table, or asks for a key in its own tests', async () => {
    const { ask } = await rig();
    const { paths } = (await ask('GET', 'openapi.json')).json as {
      paths: Record<string, Record<string, { security?: unknown }>>;
    };
    const bare = Object.entries(paths).flatMap(([path, calls]) =>
      Object.entries(calls).flatMap(([method, { security }]) => (security ? [] : [`${method} ${path}`])),
    );
    // Of what needs no key beyond looking nothing may change anything but the asker's own standing; a plan changes nothing.
    const changing = bare.filter((call) => !call.startsWith('get '));
    expect(changing.sort()).toEqual(['delete /api/v1/keys/own', 'post /api/v1/pair', 'post /api/v1/plan']);
    for (const [path, calls] of Object.entries(paths))
      for (const [method, { security }] of Object.entries(calls)) {
        if (!security) continue;
        const filled = path.replace(/\{\w+\}/g, '00000000');
        const reply = await ask(method.toUpperCase(), filled, undefined, { from: PHONE });
        expect([method, path, reply.status]).toEqual([method, path, 401]);
      }
  });

  test('it is told so before its body is looked at', async () => {
    const { ask } = await rig();
    expect((await ask('POST', 'mark', { lat: 'x' }, { from: PHONE })).status).toBe(401);
  });

  test.each(LOOKS)('anyone may look: %s', async (path) => {
    const { ask } = await rig();
    expect((await ask('GET', path, undefined, { from: PHONE })).status).toBe(200);
  });

  test.each(LOOKS.filter((path) => !OPEN_TO_ALL.includes(path)))(
    'where only paired devices may look, nobody else does: %s',
    async (path) => {
      const it = await rig({ look: 'paired' });
      const reply = await it.ask('GET', path, undefined, { from: PHONE });
      expectProblem(reply, 401, 'key-needed', /not paired/);
      expect((await it.ask('GET', path)).status).toBe(200);
      expect(
        (await it.ask('GET', path, undefined, { from: PHONE, headers: bearer(it, 'look') })).status,
      ).toBe(200);
    },
  );

  test('the pages themselves hold nothing of the boat: everybody gets them, to be paired', async () => {
    const { ask } = await rig({ look: 'paired' });
    for (const path of OPEN_TO_ALL)
      expect((await ask('GET', path, undefined, { from: PHONE })).status).toBe(200);
  });

  test('what this computer may do is told by hawse.yaml; a key adds to it and takes nothing', async () => {
    const it = await rig({ thisComputer: 'acknowledge' });
    expectProblem(await it.ask('POST', 'mark', {}), 401, 'key-needed', /may look, silence and acknowledge/);
    expect((await it.ask('POST', 'alerts/shoal.1/silence')).status).toBe(200);
    const low = { headers: bearer(it, 'look', 'Guest') };
    expect((await it.ask('POST', 'alerts/shoal.1/acknowledge', undefined, low)).status).toBe(200);
    expect((await it.ask('POST', 'mark', {}, { headers: bearer(it, 'command', 'Skipper') })).status).toBe(
      200,
    );
    expect(it.desk.commands.map(({ by }) => by)).toEqual(['this computer', 'Guest', 'Skipper']);
  });

  test.each([
    { authorization: 'Bearer nonsense' },
    { authorization: `Bearer ${KEY}x` },
    { authorization: `Bearer ${'x'.repeat(5000)}` },
    { cookie: 'hawse-key=' },
    { cookie: 'hawse-key=%zz' },
    { cookie: '__Host-hawse-key=x' },
    { cookie: `hawse-key=${'%41'.repeat(500)}` },
  ])('a wrong key is no key: %j', async (headers) => {
    const { ask } = await rig();
    const reply = await ask('POST', 'mark', {}, { from: PHONE, headers });
    expectProblem(reply, 401, 'key-wrong');
    // The browser is told to forget it, so that it is not told again with every request.
    expect(String(reply.headers['set-cookie'])).toMatch(/hawse-key=; .*Max-Age=0/);
  });

  test('the key of an earlier hawse goes on: nobody is locked out', async () => {
    const { ask, desk, ring } = await rig();
    for (const headers of [{ authorization: `Bearer ${KEY}` }, { cookie: `a=b; hawse-key=${KEY}` }])
      expect((await ask('POST', 'mark', {}, { from: PHONE, headers })).status).toBe(200);
    expect(desk.commands.map(({ by }) => by)).toEqual(["boat's key", "boat's key"]);
    expect(ring.keys.list()).toMatchObject([{ name: "boat's key", role: 'command' }]);
    const reply = await ask('GET', `/?key=${KEY}`, undefined, { from: PHONE });
    expect(reply.headers['set-cookie']).toBeUndefined();
  });

  test('an empty old key opens nothing', async () => {
    const { ask } = await rig({ key: '' });
    const headers = { cookie: 'hawse-key=' };
    expect((await ask('POST', 'mark', {}, { from: PHONE, headers })).status).toBe(401);
    expect((await ask('POST', 'mark', {})).status).toBe(200);
  });

  test('an old cookie beside the right one does no harm', async () => {
    const it = await rig();
    const { key } = it.ring.keys.add('Skipper', 'command');
    const headers = { cookie: `hawse-key=old; __Host-hawse-key=${key}` };
    expect((await it.ask('POST', 'mark', {}, { from: PHONE, headers })).status).toBe(200);
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

  test('the author: the name of the key, whatever the device calls itself', async () => {
    const it = await rig();
    const headers = { ...bearer(it, 'command', 'Foredeck'), 'hawse-name': 'Skipper' };
    await it.ask('POST', 'mark', {}, { from: PHONE, headers });
    expect(it.desk.commands[0]!.by).toBe('Foredeck');
  });

  test('the author at this computer: a name that the page tells, cleaned', async () => {
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
    expect((await ask('GET', 'nights')).status).toBe(409);
  });
});

describe('the cookie', () => {
  const over = (encrypted: boolean) => ({ socket: { encrypted }, headers: {} }) as unknown as IncomingMessage;

  test('over https browsers keep it for this boat alone and never send it in the open', () => {
    expect(cookieWith('k', over(true))).toMatch(
      /^__Host-hawse-key=k; Path=\/; HttpOnly; Secure; SameSite=Strict;/,
    );
    expect(cookieWith('k', over(false))).toMatch(/^hawse-key=k; Path=\/; HttpOnly; SameSite=Strict;/);
    expect(noCookies(over(true))).toHaveLength(2);
    for (const gone of noCookies(over(true))) expect(gone).toMatch(/Max-Age=0$/);
  });
});

describe('guessing', () => {
  const guess = (it: Rig, key: string, from: string) =>
    it.ask('POST', 'mark', {}, { from, headers: { authorization: `Bearer ${key}` } });

  test('ends after 30 wrong keys a minute, for that address and not for others; looking goes on', async () => {
    const it = await rig();
    for (let i = 0; i < 30; i++) expect((await guess(it, `guess ${i}`, PHONE)).status).toBe(401);
    expectProblem(await guess(it, KEY, PHONE), 429, 'too-many-keys');
    expect((await guess(it, KEY, '192.0.2.24')).status).toBe(200);
    expect((await it.ask('GET', 'state', undefined, { from: PHONE })).status).toBe(200);
  });

  test('from many addresses ends too, and keeps nobody out who was in before', async () => {
    const it = await rig();
    const skipper = '192.0.2.24';
    expect((await guess(it, KEY, skipper)).status).toBe(200);
    for (let i = 0; i < 300; i++)
      expect((await guess(it, 'no', `2001:db8::${i.toString(16)}`)).status).toBe(401);
    expect((await guess(it, KEY, '2001:db8::ffff')).status).toBe(429);
    expect((await guess(it, KEY, skipper)).status).toBe(200);
    expect((await guess(it, KEY, '127.0.0.1')).status).toBe(200);
  });

  test('is answered over the socket neither', async () => {
    const it = await rig({ listen: true });
    const snapshot = async (headers: Record<string, string>) => {
      const page = await it.page('', headers);
      const { role, mayCommand, bearer: name } = await page.hears(isA('snapshot'));
      await page.leaves();
      return [role, mayCommand, name];
    };
    const proxied = { 'x-forwarded-for': PHONE };
    expect(await snapshot({})).toEqual(['command', true, undefined]);
    expect(await snapshot(proxied)).toEqual(['look', false, undefined]);
    const right = { ...proxied, cookie: `hawse-key=${KEY}` };
    expect(await snapshot(right)).toEqual(['command', true, "boat's key"]);
    for (let i = 0; i < 30; i++)
      expect(await snapshot({ ...proxied, cookie: `hawse-key=${i}` })).toEqual(['look', false, undefined]);
    expect(await snapshot(right)).toEqual(['look', false, undefined]);
  });

  test('a page that may not even look is told so by the close of its socket', async () => {
    const it = await rig({ listen: true, look: 'paired' });
    const page = await it.page('', { 'x-forwarded-for': PHONE });
    expect(await page.closed).toEqual({ code: 4003, reason: 'key-needed' });
    expect(page.told).toEqual([]);
    expect(it.api.pages()).toEqual([]);
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
});
