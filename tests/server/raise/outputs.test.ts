import { createSocket, type Socket } from 'node:dgram';
import { once } from 'node:events';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { SerialPort } from 'serialport';
import { afterEach, describe, expect, test } from 'vitest';
import { createBus } from '../../../server/raise/bus.ts';
import { sentence } from '../../../server/raise/sentence.ts';
import { createSerialCarrier } from '../../../server/raise/serial.ts';
import { createUdpCarrier } from '../../../server/raise/udp.ts';
import { createWebhook } from '../../../server/raise/webhook.ts';
import type { Alert } from '../../../shared/alerts/alert.ts';
import { ptyPair } from '../intake/pty.ts';
import { alertOf, listen, until } from './help.ts';

const closing: (() => Promise<unknown> | unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

const moment = (at: number, ...alerts: Alert[]) => ({ at, alerts, clockOffset: 0 });
const wanted = (...alerts: Alert[]) => ({ tell: alerts, sounding: alerts });
const SENTENCES = {
  id: 'udp1',
  after: { alarm: 0 },
  atOnceWithoutPhone: true,
  talker: 'II',
  manufacturer: 'HWS',
  formats: ['ALF', 'ALR'],
} as const;

async function udpSocket(): Promise<{ socket: Socket; port: number; lines: string[] }> {
  const socket = createSocket('udp4');
  const lines: string[] = [];
  socket.on('message', (datagram) => lines.push(String(datagram)));
  socket.bind(0, '127.0.0.1');
  await once(socket, 'listening');
  closing.push(() => new Promise<void>((done) => socket.close(() => done())));
  return { socket, port: socket.address().port, lines };
}

function bus(config: Parameters<typeof createBus>[0], carrier: Parameters<typeof createBus>[1]) {
  const orders: string[] = [];
  const remarks: string[] = [];
  const health = listen();
  const made = createBus(
    config,
    carrier,
    {
      health,
      obey: async (act, alert, by) => {
        orders.push(`${act} ${alert} by ${by}`);
        return act === 'silence' ? 'A caution makes no sound.' : undefined;
      },
      remark: (text) => remarks.push(text),
    },
    20,
  );
  made.start();
  closing.push(() => made.stop());
  return { bus: made, orders, remarks, health };
}

describe('over UDP', () => {
  test('alert sentences go out, one a datagram; a test is raised and ended', async () => {
    const display = await udpSocket();
    const health = listen();
    const config = { ...SENTENCES, kind: 'udp', host: '127.0.0.1', port: display.port } as const;
    const { bus: out } = bus(config, createUdpCarrier(config, health));
    const drag = alertOf('drag');
    out.show(wanted(drag), moment(0, drag));
    expect(out.on()).toBe(true);
    await until(() => display.lines.length >= 5);
    expect(display.lines.map((line) => line.slice(1, 6))).toEqual(
      expect.arrayContaining(['IIALF', 'IIALR', 'IIALC']),
    );
    for (const line of display.lines) expect(line).toMatch(/\*[0-9A-F]{2}\r\n$/);
    display.lines.length = 0;
    await expect(out.test(moment(1, drag))).resolves.toMatch(/test alert/);
    await until(() => display.lines.length >= 6);
    const tests = display.lines.filter((line) => line.includes('TEST OF HORN'));
    expect(tests.map((line) => line.split(',')[7])).toEqual(['V', 'N']);
  });

  test('orders are taken from the port and the address that the config names, from nowhere else', async () => {
    const display = await udpSocket();
    const probe = await udpSocket();
    const health = listen();
    const free = await udpSocket();
    const port = free.port;
    await closing.pop()!();
    const config = {
      ...SENTENCES,
      kind: 'udp',
      host: '127.0.0.1',
      port: display.port,
      accept: { port, from: '127.0.0.1' },
    } as const;
    const carrier = createUdpCarrier(config, health);
    const { bus: out, orders, remarks } = bus(config, carrier);
    const drag = alertOf('drag');
    out.show(wanted(drag), moment(0, drag));
    await until(() => carrier.heardOn() === port);
    const instance = drag.id.split('.')[1]!;
    const acn = (command: string) => sentence('RAACN', ['220516', 'HWS', 10_001, instance, command, 'C']);
    // What is sent to the port that we send from is not obeyed.
    await until(() => display.lines.length > 0);
    probe.socket.send(`${acn('A')}${acn('S')}`, port, '127.0.0.1');
    await until(() => orders.length === 2 && remarks.length > 0);
    expect(orders).toEqual([`acknowledge ${drag.id} by ACN udp1`, `silence ${drag.id} by ACN udp1`]);
    expect(remarks).toEqual(['ACN udp1: A caution makes no sound.']);
    probe.socket.send(sentence('RAACN', ['220516', 'HWS', 10_001, instance, 'O', 'C']), port, '127.0.0.1');
    probe.socket.send('$IIHDT,12.0,T*00 noise', port, '127.0.0.1');
    await until(() => remarks.length === 2);
    expect(orders).toHaveLength(2);
    display.lines.length = 0;
    probe.socket.send(acn('Q'), port, '127.0.0.1');
    await until(() => display.lines.length >= 2);
    expect(display.lines[0]).toContain('ANCHOR DRAGS');
  });

  test('strangers are not obeyed', async () => {
    const stranger = await udpSocket();
    const free = await udpSocket();
    const port = free.port;
    await closing.pop()!();
    const config = {
      ...SENTENCES,
      kind: 'udp',
      host: '127.0.0.1',
      port: stranger.port,
      accept: { port, from: '192.0.2.9' },
    } as const;
    const carrier = createUdpCarrier(config, listen());
    const { bus: out, orders, remarks } = bus(config, carrier);
    const drag = alertOf('drag');
    out.show(wanted(drag), moment(0, drag));
    await until(() => carrier.heardOn() === port);
    stranger.socket.send(sentence('VRACK', ['001']), port, '127.0.0.1');
    // A datagram of our own that arrives later than the order shows that the order has been read.
    const seen = stranger.lines.length;
    await out.test(moment(1, drag));
    await until(() => stranger.lines.length > seen);
    expect([orders, remarks]).toEqual([[], []]);
  });

  test('an address that cannot be reached is a failure in words, and everything is told again when it can be', async () => {
    let isDown = true;
    const sent: string[] = [];
    const health = listen();
    const carrier = {
      what: 'a fake line',
      start: (ready: () => void) => ready(),
      send: async (lines: readonly string[]) => {
        if (isDown) throw new Error('network is unreachable');
        sent.push(...lines);
      },
      stop: async () => {},
    };
    const made = createBus({ ...SENTENCES, kind: 'udp', host: '192.0.2.1', port: 1 }, carrier, {
      health,
      obey: async () => undefined,
      remark: () => {},
    });
    made.start();
    const drag = alertOf('drag');
    made.show(wanted(drag), moment(0, drag));
    await until(() => health.words.length > 0);
    expect(health.words[0]).toBe('failed: network is unreachable');
    isDown = false;
    made.show(wanted(drag), moment(10, drag));
    await until(() => sent.length > 0);
    expect(sent.join('')).toContain('ANCHOR DRAGS');
    expect(health.words.at(-1)).toBe('ok');
  });
});

describe('over a serial port', () => {
  test('alert sentences go out and orders come in; not obeyed unless the config says so', async () => {
    const pair = await ptyPair();
    if (!pair) return;
    closing.push(() => pair.close());
    const display = new SerialPort({ path: pair.other, baudRate: 4800 });
    await once(display, 'open');
    closing.push(() => new Promise<void>((done) => display.close(() => done())));
    let read = '';
    display.on('data', (chunk: Buffer) => {
      read += chunk.toString('latin1');
    });
    const config = {
      ...SENTENCES,
      id: 'serial1',
      kind: 'serial',
      path: pair.device,
      baud: 4800,
      accept: true,
    } as const;
    const health = listen();
    const { bus: out, orders, health: told } = bus(config, createSerialCarrier(config, health));
    const drag = alertOf('drag');
    let at = 0;
    await until(() => {
      // The port may open after the first look: what it missed comes when it is open.
      at += 10;
      out.show(wanted(drag), moment(at, drag));
      return read.includes('ANCHOR DRAGS') && told.words.at(-1) === 'ok';
    });
    display.write(`\r\nnoise\r\n${sentence('VRACK', ['001'])}`);
    await until(() => orders.length > 0);
    expect(orders).toEqual([`acknowledge ${drag.id} by ACK serial1`]);
  });

  test('a port that is not there, or goes, is a failure in words', async () => {
    const config = {
      ...SENTENCES,
      kind: 'serial',
      path: '/dev/no-such-port',
      baud: 4800,
      accept: false,
    } as const;
    const health = listen();
    const { bus: out } = bus(config, createSerialCarrier(config, health));
    await until(() => health.words.length > 0);
    expect(health.words[0]).toMatch(/^failed: .*no-such-port/);
    await expect(out.test(moment(0))).rejects.toThrow(/no-such-port/);

    const pair = await ptyPair();
    if (!pair) return;
    const gone = listen();
    const carrier = createSerialCarrier({ path: pair.device, baud: 4800, accept: false }, gone);
    closing.push(() => carrier.stop());
    await new Promise<void>((ready) => carrier.start(ready, () => {}));
    await pair.close();
    await until(() => gone.words.length > 0);
    expect(gone.words[0]).toMatch(/closed or unplugged/);
  });
});

describe('a webhook', () => {
  interface Receiver {
    url: string;
    took: { body: Record<string, unknown>; headers: IncomingMessage['headers'] }[];
    answer: (request: IncomingMessage, response: ServerResponse) => void;
    server: Server;
  }
  async function receiver(): Promise<Receiver> {
    const made: Receiver = {
      url: '',
      took: [],
      answer: (_request, response) => response.end(),
      server: createServer(async (request, response) => {
        let text = '';
        for await (const chunk of request) text += chunk;
        made.took.push({ body: JSON.parse(text), headers: request.headers });
        made.answer(request, response);
      }),
    };
    made.server.listen(0, '127.0.0.1');
    await once(made.server, 'listening');
    made.url = `http://127.0.0.1:${(made.server.address() as AddressInfo).port}/hook`;
    closing.push(() => {
      made.server.closeAllConnections();
      made.server.close();
    });
    return made;
  }
  function webhook(url: string, told: { limit?: number; retries?: number[] } = {}) {
    const health = listen();
    const config = {
      id: 'webhook1',
      kind: 'webhook',
      after: { alarm: 0 },
      atOnceWithoutPhone: true,
      url,
      headers: { authorization: 'Bearer secret' },
      limit: told.limit ?? 5,
      retries: told.retries ?? [0, 0],
    } as const;
    const out = createWebhook(config, 'Test Petrel', health);
    closing.push(() => out.stop());
    return { out, health };
  }

  test('each change of an alert is posted as JSON, in order', async () => {
    const there = await receiver();
    const { out, health } = webhook(there.url);
    const drag = alertOf('drag', { stateSince: 5 });
    out.show(wanted(drag), moment(5, drag));
    out.show(wanted(drag), moment(6, { ...drag, text: 'moved farther' }));
    const seen: Alert = { ...drag, state: 'active-acknowledged' };
    out.show(wanted(), moment(7, seen));
    out.show(wanted(), moment(8));
    await until(() => there.took.length === 3);
    const alerts = there.took.map(({ body }) => body.alert as Alert);
    expect(alerts.map(({ state }) => state)).toEqual([
      'active-unacknowledged',
      'active-acknowledged',
      'normal',
    ]);
    expect(there.took[0]!.body).toMatchObject({
      boat: 'Test Petrel',
      at: 5,
      alert: { id: drag.id, kind: 'drag' },
    });
    expect(there.took[0]!.headers).toMatchObject({
      'content-type': 'application/json',
      authorization: 'Bearer secret',
    });
    await until(() => health.words.length === 3);
    expect(health.words).toEqual(['ok', 'ok', 'ok']);
    // A token in the path is nobody's business.
    expect(out.what).toBe(new URL(there.url).host);
  });

  test('one that answers with an error is tried again, then told', async () => {
    const there = await receiver();
    let answers = 0;
    there.answer = (_request, response) => response.writeHead(++answers < 3 ? 500 : 204).end();
    const { out, health } = webhook(there.url);
    const drag = alertOf('drag');
    out.show(wanted(drag), moment(0, drag));
    await until(() => health.words.length > 0);
    expect([answers, health.words]).toEqual([3, ['ok']]);
    there.answer = (_request, response) => response.writeHead(503).end();
    out.show(wanted(), moment(1));
    await until(() => health.words.length === 2);
    expect(health.words[1]).toBe('failed: it answered 503 Service Unavailable (tried 3 times)');
    await expect(out.test(moment(2))).rejects.toThrow('it answered 503');
  });

  test('one that never answers, redirects or is not there', async () => {
    const there = await receiver();
    there.answer = () => {};
    const silent = webhook(there.url, { limit: 0.1, retries: [] });
    await expect(silent.out.test(moment(0))).rejects.toThrow('it did not answer within 0.1 s');
    there.answer = (_request, response) => response.writeHead(302, { location: 'http://192.0.2.1/' }).end();
    await expect(webhook(there.url).out.test(moment(0))).rejects.toThrow('it answered 302 Found');
    there.server.closeAllConnections();
    await new Promise((done) => there.server.close(done));
    const absent = webhook(there.url);
    await expect(absent.out.test(moment(0))).rejects.toThrow(/ECONNREFUSED/);
    expect(absent.health.words[0]).toMatch(/^failed: .*ECONNREFUSED/);
  });
});
