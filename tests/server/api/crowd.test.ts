import { connect } from 'node:net';
import { describe, expect, test } from 'vitest';
import { WebSocket } from 'ws';
import { counted, isA, openPage, type Page, PHONE, QUICK, rig } from './help.ts';

describe('pages that do harm', () => {
  test('a page that does not read is cut off, and the others are told everything', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const good = await it.page('name=good');
    const stalled = await it.page('name=stalled');
    await stalled.hears(isA('snapshot'));
    stalled.socket.pause();
    const text = 'x'.repeat(200_000);
    let sent = 0;
    while (it.api.pages().length > 1) {
      it.api.event({ event: 'note', t: 1, text: `${sent} ${text}` });
      const last = ++sent;
      await good.hears(
        (message) =>
          isA('event')(message) && 'text' in message.event && message.event.text.startsWith(`${last - 1} `),
      );
    }
    expect(it.api.pages().map(({ name }) => name)).toEqual(['good']);
    expect(await counted(it, 'hawse_dropped_sockets_total{reason="stalled"}')).toBe(1);
    stalled.socket.resume();
    await stalled.closed;
    expect(good.told.filter(isA('event'))).toHaveLength(sent);
  });

  test('at most 64 pages; a place that becomes free is given again', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const pages: Page[] = [];
    for (let i = 0; i < 64; i++) pages.push(await it.page());
    await expect(it.page()).rejects.toMatchObject({
      status: 503,
      problem: { type: 'urn:hawse:problem:too-many-sockets' },
    });
    expect(await counted(it, 'hawse_live_sockets')).toBe(64);
    await pages[0]!.leaves();
    await it.page();
  });

  test('guests who may only look leave places for those who keep the watch', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const guest = { 'x-forwarded-for': PHONE };
    for (let i = 0; i < 48; i++) await it.page('', guest);
    await expect(it.page('', guest)).rejects.toMatchObject({ status: 503 });
    await (await it.page()).hears(isA('snapshot'));
  });

  test('a connection that is gone although nobody has closed it is noticed', async () => {
    const it = await rig({ listen: true, timing: { coalesceMs: 10, beatMs: 10 } });
    const stays = await it.page('name=stays');
    const gone = new WebSocket(`ws://127.0.0.1:${it.port}/live?name=gone`, { autoPong: false });
    gone.on('error', () => {});
    await new Promise((resolve) => gone.once('close', resolve));
    expect(it.api.pages().map(({ name }) => name)).toEqual(['stays']);
    expect(await counted(it, 'hawse_dropped_sockets_total{reason="silent"}')).toBe(1);
    await stays.leaves();
  });

  test('a WebSocket elsewhere is refused', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    for (const path of ['/', '/live/', '/api/v1/live', '/livex'])
      await expect(openPage(`ws://127.0.0.1:${it.port}${path}`)).rejects.toMatchObject({ status: 404 });
  });

  test.each([
    'GARBAGE\r\n\r\n',
    'GET /api/v1/state HTTP/9.9\r\n\r\n',
    'GET / HTTP/1.1\r\nHost: localhost\r\nContent-Length: x\r\n\r\n',
    `GET / HTTP/1.1\r\nHost: localhost\r\nX: ${'y'.repeat(20_000)}\r\n\r\n`,
    '\x16\x03\x01\x02\x00\x01\x00',
  ])('what is not HTTP gets problem details, not silence: %.30s', async (bytes) => {
    const it = await rig({ listen: true, timing: QUICK });
    const answer = await exchange(it.port, bytes);
    expect(answer).toMatch(/^HTTP\/1\.1 400 Bad Request\r\nContent-Type: application\/problem\+json/);
    expect(answer).toContain('urn:hawse:problem:bad-http');
    expect((await it.ask('GET', 'health')).status).toBe(200);
  });

  test('a handshake that is none, and a socket that is torn off in the middle', async () => {
    const it = await rig({ listen: true, timing: QUICK });
    const head = `GET /live HTTP/1.1\r\nHost: 127.0.0.1:${it.port}\r\nConnection: Upgrade\r\nUpgrade: websocket\r\n`;
    expect(await exchange(it.port, `${head}\r\n`)).toMatch(/^HTTP\/1\.1 400/);
    for (let i = 0; i < 20; i++) {
      const socket = connect(it.port, '127.0.0.1');
      socket.on('error', () => {});
      socket.write(`${head}Sec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==\r\nSec-WebSocket-Version: 13\r\n\r\n`);
      await new Promise((resolve) => socket.once('data', resolve));
      socket.resetAndDestroy();
    }
    const page = await it.page();
    await page.hears(isA('snapshot'));
    while (it.api.pages().length > 1) await new Promise((resolve) => setTimeout(resolve, 5));
  });
});

/** Everything that comes back on a bare connection until it is closed. */
function exchange(port: number, bytes: string): Promise<string> {
  return new Promise((resolve) => {
    let answer = '';
    const socket = connect(port, '127.0.0.1', () => socket.write(bytes, 'latin1'));
    socket.on('data', (chunk) => {
      answer += chunk;
    });
    socket.on('error', () => {});
    socket.on('close', () => resolve(answer));
  });
}
