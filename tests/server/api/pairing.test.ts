import { chmodSync, rmSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { MOST_KEYS } from '../../../server/access/keys.ts';
import { MOST_WRONG_CODES } from '../../../server/access/pairing.ts';
import { emptyFolder, expectProblem, isA, KEY, PHONE, type Rig, rig } from './help.ts';

const OTHER = '192.0.2.77';

async function codeOf(it: Rig, role?: string): Promise<string> {
  const { status, json } = await it.ask('POST', 'pairing', role === undefined ? undefined : { role });
  expect(status).toBe(200);
  return json.code;
}

const pair = (it: Rig, code: string, name = 'Skipper’s phone', more: object = {}, from = PHONE) =>
  it.ask('POST', 'pair', { code, name, ...more }, { from });

const cookieOf = (headers: Record<string, unknown>): string => String(headers['set-cookie']).split(';')[0]!;

describe('pairing', () => {
  test('a phone that tells the code gets a key of its own name, that scripts do not see', async () => {
    const it = await rig();
    const code = await codeOf(it);
    expect(code).toMatch(/^[A-HJKMNP-TV-Z2-9]{4}-[A-HJKMNP-TV-Z2-9]{4}$/);
    const reply = await pair(it, code.toLowerCase().replace('-', ' '));
    expect(reply).toMatchObject({ status: 200, json: { key: { name: 'Skipper’s phone', role: 'command' } } });
    expect(String(reply.headers['set-cookie'])).toMatch(
      /^hawse-key=[\w-]{32}; Path=\/; HttpOnly; SameSite=Strict; Max-Age=34560000$/,
    );
    expect(reply.text).not.toContain(cookieOf(reply.headers).split('=')[1]);
    const headers = { cookie: cookieOf(reply.headers) };
    expect((await it.ask('POST', 'mark', {}, { from: PHONE, headers })).status).toBe(200);
    expect(it.desk.commands.map(({ command, by }) => [command.do, by])).toEqual([
      ['access', 'Skipper’s phone'],
      ['mark', 'Skipper’s phone'],
    ]);
  });

  test('a code is good once', async () => {
    const it = await rig();
    const code = await codeOf(it);
    expect((await pair(it, code)).status).toBe(200);
    expectProblem(await pair(it, code, 'Another', {}, OTHER), 401, 'code-wrong', /it was used/);
  });

  test('a new code ends the older one, and it can be taken back', async () => {
    const it = await rig();
    const first = await codeOf(it);
    const second = await codeOf(it);
    expect((await pair(it, first)).status).toBe(401);
    expect((await it.ask('DELETE', 'pairing')).status).toBe(200);
    expectProblem(await pair(it, second), 401, 'code-wrong', /No code is good now/);
  });

  test('without a code that is open nothing pairs', async () => {
    const it = await rig();
    for (const code of ['', ' ', '-', 'ABCD-EFGH', 'undefined', '__proto__'])
      expect((await pair(it, code)).status).toBeGreaterThanOrEqual(400);
    expect(it.ring.keys.list()).toHaveLength(1);
  });

  test('it gives no more than it was opened for, and less when less is asked', async () => {
    const it = await rig();
    const code = await codeOf(it, 'acknowledge');
    expectProblem(await pair(it, code, 'a', { role: 'command' }), 401, 'code-wrong', /lower role/);
    expect((await pair(it, code, 'a', { role: 'look' })).json.key.role).toBe('look');
  });

  test('wrong codes: no more than 30 a minute from one address', async () => {
    const it = await rig();
    const code = await codeOf(it);
    for (let i = 0; i < 30; i++) expect((await pair(it, 'WRONG')).status).toBe(401);
    expectProblem(await pair(it, code), 429, 'too-many-keys');
    expect((await pair(it, code, 'b', {}, OTHER)).status).toBe(200);
  });

  test('wrong codes from many addresses close the pairing', async () => {
    const it = await rig();
    const code = await codeOf(it);
    for (let i = 1; i < MOST_WRONG_CODES; i++)
      expect((await pair(it, 'WRONG', 'x', {}, `2001:db8::${i.toString(16)}`)).json.detail).toMatch(
        /not the code/,
      );
    const last = await pair(it, 'WRONG', 'x', {}, OTHER);
    expectProblem(last, 401, 'code-wrong', /Too many wrong codes/);
    expect((await pair(it, code)).status).toBe(401);
    expect((await it.ask('GET', 'keys')).json.pairing).toBeUndefined();
  });

  test('a paired phone is no guesser: its earlier wrong keys are forgiven', async () => {
    const it = await rig();
    const guess = { from: PHONE, headers: { cookie: 'hawse-key=old' } };
    for (let i = 0; i < 29; i++) await it.ask('POST', 'mark', {}, guess);
    const reply = await pair(it, await codeOf(it));
    await it.ask('POST', 'mark', {}, guess);
    const headers = { cookie: cookieOf(reply.headers) };
    expect((await it.ask('POST', 'mark', {}, { from: PHONE, headers })).status).toBe(200);
  });

  test('only those who may command open it', async () => {
    const it = await rig();
    expect((await it.ask('POST', 'pairing', undefined, { from: PHONE })).status).toBe(401);
    const { key } = it.ring.keys.add('Mate', 'acknowledge');
    const headers = { authorization: `Bearer ${key}` };
    for (const [method, path] of [
      ['POST', 'pairing'],
      ['GET', 'keys'],
      ['POST', 'keys'],
      ['DELETE', 'keys/00000000'],
    ] as const)
      expect((await it.ask(method, path, undefined, { from: PHONE, headers })).status).toBe(403);
  });

  test('a page of another site cannot pair, even with the code', async () => {
    const it = await rig();
    const code = await codeOf(it);
    const headers = { host: 'localhost:8274', origin: 'http://evil.example' };
    expect((await it.ask('POST', 'pair', { code, name: 'x' }, { headers })).status).toBe(403);
    expect((await pair(it, code)).status).toBe(200);
  });

  test.each([{ name: '' }, { name: '\u200b\n ' }, { name: 'x'.repeat(300) }, { name: 3 }, { role: 'admin' }])(
    'what is wrong is told, and the code stays good: %j',
    async (wrong) => {
      const it = await rig();
      const code = await codeOf(it);
      expect((await it.ask('POST', 'pair', { code, name: 'x', ...wrong }, { from: PHONE })).status).toBe(400);
      expect((await pair(it, code)).status).toBe(200);
    },
  );
});

describe('keys', () => {
  test('are listed without what opens anything', async () => {
    const it = await rig();
    const { key } = it.ring.keys.add('Chart table', 'look');
    const { text, json } = await it.ask('GET', 'keys', undefined, {
      headers: { authorization: `Bearer ${key}` },
    });
    expect(json.keys.map(({ name }: { name: string }) => name)).toEqual(["boat's key", 'Chart table']);
    expect(json.own).toBe(json.keys[1].id);
    expect(text).not.toContain(key);
    expect(text).not.toContain(KEY);
    expect(text).not.toContain('hash');
  });

  test('a program gets one that is told once', async () => {
    const it = await rig();
    const { json } = await it.ask('POST', 'keys', { name: 'logger', role: 'look' });
    expect(json.key).toMatchObject({ name: 'logger', role: 'look' });
    const headers = { authorization: `Bearer ${json.bearer}` };
    expect((await it.ask('POST', 'alerts/shoal.1/silence', undefined, { from: PHONE, headers })).status).toBe(
      403,
    );
    expect(it.desk.commands).toMatchObject([
      { by: 'this computer', command: { do: 'access', change: { what: 'made', name: 'logger' } } },
    ]);
  });

  test('one that is taken away opens nothing, at once, and its open pages are closed', async () => {
    const it = await rig({ listen: true });
    const { key, view } = it.ring.keys.add('Lost phone', 'command');
    const headers = { 'x-forwarded-for': PHONE, cookie: `hawse-key=${key}` };
    const page = await it.page('name=lost', headers);
    const other = await it.page('name=other');
    await page.hears(isA('snapshot'));
    expect((await it.ask('DELETE', `keys/${view.id}`)).status).toBe(200);
    expect(await page.closed).toEqual({ code: 4003, reason: 'key-taken-away' });
    expect((await it.ask('POST', 'mark', {}, { from: PHONE, headers })).status).toBe(401);
    expect(it.api.pages().map(({ name }) => name)).toEqual(['other']);
    expectProblem(await it.ask('DELETE', `keys/${view.id}`), 404, 'unknown');
    await other.leaves();
  });

  test('an open page that may acknowledge counts as one that watches; one that may only look does not', async () => {
    const it = await rig({ listen: true });
    for (const role of ['look', 'acknowledge', 'command'] as const) {
      const { key } = it.ring.keys.add(role, role);
      await it.page(`name=${role}`, { 'x-forwarded-for': PHONE, cookie: `hawse-key=${key}` });
    }
    const may = it.api.pages().map(({ name, mayAnswer }) => [name, mayAnswer]);
    expect(may).toEqual([
      ['look', false],
      ['acknowledge', true],
      ['command', true],
    ]);
  });

  test('any device may give its own back, without a role', async () => {
    const it = await rig();
    const { key } = it.ring.keys.add('Guest', 'look');
    const headers = { cookie: `hawse-key=${key}` };
    const reply = await it.ask('DELETE', 'keys/own', undefined, { from: PHONE, headers });
    expect(reply.status).toBe(200);
    expect(String(reply.headers['set-cookie'])).toContain('Max-Age=0');
    expect(it.ring.keys.list().map(({ name }) => name)).toEqual(["boat's key"]);
    expectProblem(await it.ask('DELETE', 'keys/own', undefined, { from: PHONE, headers }), 404, 'unknown');
  });

  test('the last that may command stays, where this computer may not', async () => {
    const it = await rig({ thisComputer: 'look' });
    const [old] = it.ring.keys.list();
    const headers = { authorization: `Bearer ${KEY}` };
    const away = () => it.ask('DELETE', `keys/${old!.id}`, undefined, { from: PHONE, headers });
    expectProblem(await away(), 409, 'refused', /last that may command/);
    it.ring.keys.add('Skipper', 'command');
    expect((await away()).status).toBe(200);
  });

  test('there is a limit to them', async () => {
    const it = await rig();
    while (it.ring.keys.list().length < MOST_KEYS) it.ring.keys.add('x', 'look');
    const code = await codeOf(it);
    expectProblem(await pair(it, code), 409, 'refused', /take some away/);
    await it.ask('DELETE', `keys/${it.ring.keys.list()[1]!.id}`);
    expect((await pair(it, code)).status).toBe(200);
  });

  test('what the disk does not take is not promised: the phone is not paired, and may try the code again', async () => {
    const data = emptyFolder();
    const it = await rig({ data });
    const code = await codeOf(it);
    // A folder in the place of the draft fails root too, whom modes of files do not stop.
    const { mkdirSync } = await import('node:fs');
    mkdirSync(`${data}/keys.json.tmp/x`, { recursive: true });
    expectProblem(await pair(it, code), 500, 'not-kept');
    expect(it.ring.keys.list()).toEqual([]);
    rmSync(`${data}/keys.json.tmp`, { recursive: true });
    chmodSync(data, 0o700);
    expect((await pair(it, code)).status).toBe(200);
  });
});
