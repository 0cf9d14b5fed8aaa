import { createSocket } from 'node:dgram';
import { once } from 'node:events';
import { type AddressInfo, type connect, createServer, type Server, Socket } from 'node:net';
import { afterEach, describe, expect, test } from 'vitest';
import type { Intake } from '../../../server/intake/input.ts';
import { startIntakes } from '../../../server/intake/manage.ts';
import { createTcp, pause, splitHostPort } from '../../../server/intake/tcp.ts';
import { createUdp, type UdpOptions } from '../../../server/intake/udp.ts';
import { listener } from './heard.ts';

const running: Intake[] = [];
const servers: Server[] = [];
const started = <T extends Intake>(intake: T): T => {
  running.push(intake);
  intake.start();
  return intake;
};
afterEach(async () => {
  await Promise.all(running.splice(0).map((intake) => intake.stop()));
  await Promise.all(servers.splice(0).map((server) => new Promise((resolve) => server.close(resolve))));
});

describe('UDP', () => {
  async function listening(options: Partial<UdpOptions> = {}) {
    const heard = listener();
    const udp = started(createUdp({ id: 'udp1', udp: 0, host: '127.0.0.1', retry: 50, ...options }, heard));
    await heard.until(({ links }) => links.length > 0);
    return { heard, udp, port: udp.port()! };
  }
  const send = async (port: number, ...datagrams: string[]) => {
    const socket = createSocket('udp4');
    for (const datagram of datagrams)
      await new Promise((resolve) =>
        socket.send(Buffer.from(datagram, 'latin1'), port, '127.0.0.1', resolve),
      );
    socket.close();
  };

  test('several sentences in a datagram, and the end of a datagram ends a line', async () => {
    const { heard, port } = await listening();
    expect(heard.links).toEqual([{ id: 'udp1', up: true, detail: `listening on UDP port ${port}` }]);
    await send(port, '$A*1\r\n$B*2\r\n', '$C*3', '$D*\xff\n');
    await heard.until(({ lines }) => lines.length === 4);
    expect(heard.texts()).toEqual(['$A*1', '$B*2', '$C*3', '$D*\xff']);
    expect(heard.lines[0]!.id).toBe('udp1');
  });

  test('a datagram of noise is discarded and counted', async () => {
    const { heard, port } = await listening();
    await send(port, 'x'.repeat(2000), '$A*1\n');
    await heard.until(({ lines, discarded }) => lines.length === 1 && discarded === 2000);
  });

  test('a pinned sender: others are ignored, which is told once', async () => {
    const { heard, port } = await listening({ from: '127.0.0.2' });
    await send(port, '$A*1\n', '$B*1\n');
    await heard.until(({ links }) => links.length === 2);
    expect(heard.links[1]).toEqual({
      id: 'udp1',
      up: true,
      detail: 'datagrams from 127.0.0.1 are ignored, only 127.0.0.2 is heard',
    });
    const socket = createSocket('udp4');
    await new Promise<void>((resolve) => socket.bind(0, '127.0.0.2', resolve));
    socket.send('$C*1\n', port, '127.0.0.1');
    await heard.until(({ lines }) => lines.length > 0);
    socket.close();
    expect(heard.texts()).toEqual(['$C*1']);
    expect(heard.links).toHaveLength(2);
  });

  test('a multicast group is joined', async () => {
    const { heard, udp } = await listening({ host: undefined, group: '239.192.0.4' });
    expect(heard.links[0]).toMatchObject({
      up: true,
      detail: `listening on UDP port ${udp.port()}, group 239.192.0.4`,
    });
  });

  test('a port that another program has is told once and had as soon as it is free', async () => {
    const other = createSocket('udp4');
    await new Promise<void>((resolve) => other.bind(0, '127.0.0.1', resolve));
    const { port } = other.address();
    const heard = listener();
    started(createUdp({ id: 'udp1', udp: port, host: '127.0.0.1', retry: 20 }, heard));
    await heard.until(({ links }) => links.length > 0);
    expect(heard.links[0]).toEqual({
      id: 'udp1',
      up: false,
      detail: `UDP port ${port}: the port is taken by another program on this computer`,
    });
    await new Promise((resolve) => setTimeout(resolve, 100));
    expect(heard.links).toHaveLength(1);
    other.close();
    await heard.until(({ links }) => links.at(-1)!.up);
    await send(port, '$A*1\n');
    await heard.until(({ lines }) => lines.length === 1);
  });

  test('stopped, it tells nothing more and leaves the port', async () => {
    const { heard, udp, port } = await listening();
    await udp.stop();
    const other = createSocket('udp4');
    await new Promise<void>((resolve) => other.bind(port, '127.0.0.1', resolve));
    other.close();
    expect(heard.links).toHaveLength(1);
  });
});

describe('TCP', () => {
  async function serving(onconnection: (socket: Socket) => void, port = 0) {
    const server = createServer(onconnection);
    servers.push(server);
    server.listen(port, '127.0.0.1');
    await once(server, 'listening');
    return { server, port: (server.address() as AddressInfo).port };
  }
  const client = (port: number, timeout = 5000) => {
    const heard = listener();
    const wait = { shortest: 20, longest: 60 };
    const tcp = started(
      createTcp({ id: 'gateway', tcp: `127.0.0.1:${port}`, jitter: () => 0, wait, timeout }, heard),
    );
    return { heard, tcp };
  };

  test('sentences split anywhere on their way come whole', async () => {
    const { port } = await serving(async (socket) => {
      for (const part of ['$A', 'BC*1\r', '\n$D', 'EF*2\r\n$G']) {
        socket.write(part);
        await new Promise((resolve) => setTimeout(resolve, 20));
      }
      socket.end();
    });
    const { heard } = client(port);
    await heard.until(({ lines }) => lines.length >= 3);
    expect(heard.texts().slice(0, 3)).toEqual(['$ABC*1', '$DEF*2', '$G']);
    expect(heard.links[0]).toEqual({ id: 'gateway', up: true, detail: `connected to 127.0.0.1:${port}` });
    await heard.until(({ links }) => links.length >= 2);
    expect(heard.links[1]).toEqual({
      id: 'gateway',
      up: false,
      detail: `connection to 127.0.0.1:${port} lost: the other side closed it`,
    });
  });

  test('a server that is away is told once, and found when it comes', async () => {
    const { server, port } = await serving(() => undefined);
    await new Promise((resolve) => server.close(resolve));
    const { heard } = client(port);
    await heard.until(({ links }) => links.length > 0);
    expect(heard.links[0]!.detail).toBe(
      `127.0.0.1:${port}: it refuses the connection (is its server switched on?)`,
    );
    await new Promise((resolve) => setTimeout(resolve, 150));
    expect(heard.links).toHaveLength(1);
    await serving((socket) => void socket.end('$A*1\n'), port);
    await heard.until(({ lines }) => lines.length > 0);
  });

  test('a connection that breaks is made again', async () => {
    let connections = 0;
    const { port } = await serving((socket) => {
      connections++;
      if (connections === 1) setTimeout(() => socket.resetAndDestroy(), 50);
      else socket.write('$B*2\n');
    });
    const { heard, tcp } = client(port);
    await heard.until(({ lines }) => lines.some(({ text }) => text === '$B*2'));
    expect(heard.links.map(({ up }) => up)).toEqual([true, false, true]);
    await tcp.stop();
    expect(heard.links).toHaveLength(3);
  });

  test('a gateway that does not answer is given up and tried again', async () => {
    const heard = listener();
    let dialled = 0;
    const dial = (() => {
      dialled++;
      return new Socket(); // never connects
    }) as typeof connect;
    const wait = { shortest: 10, longest: 10 };
    started(createTcp({ id: 'gateway', tcp: '192.168.4.1:2000', wait, timeout: 20, dial }, heard));
    await heard.until(() => dialled >= 1 && heard.links.length === 1);
    expect(heard.links[0]).toEqual({
      id: 'gateway',
      up: false,
      detail: '192.168.4.1:2000: it does not answer',
    });
    while (dialled < 3) await new Promise((resolve) => setTimeout(resolve, 10));
    expect(heard.links).toHaveLength(1);
  });

  test('stopped while it waits for the next try, it does not try again', async () => {
    let connections = 0;
    const { port } = await serving((socket) => {
      connections++;
      socket.end();
    });
    const { heard, tcp } = client(port);
    await heard.until(({ links }) => links.length >= 2);
    await tcp.stop();
    const before = connections;
    await new Promise((resolve) => setTimeout(resolve, 200));
    expect(connections).toBe(before);
  });

  test('the waits double from 1 s to 15 s, shortened by at most a quarter', () => {
    expect([0, 1, 2, 3, 4, 5, 99].map((tries) => pause(tries, 0))).toEqual([
      1000, 2000, 4000, 8000, 15_000, 15_000, 15_000,
    ]);
    expect(pause(9, 0.999)).toBeGreaterThan(11_250);
    expect(pause(0, 0.999)).toBe(1000);
  });

  test('HOST:PORT', () => {
    expect(splitHostPort('192.168.4.1:2000')).toEqual({ host: '192.168.4.1', port: 2000 });
    expect(splitHostPort('[fe80::1]:10110')).toEqual({ host: 'fe80::1', port: 10_110 });
    for (const wrong of ['gateway', 'gateway:0', 'gateway:70000', ':2000', '[::1:5', 'a]:5'])
      expect(() => splitHostPort(wrong)).toThrow(RangeError);
  });
});

test('all inputs of a config start together; discarded noise reaches a daemon without a sink for it as a line', async () => {
  const heard = listener();
  const { line, link } = heard;
  const free = createSocket('udp4');
  await new Promise<void>((resolve) => free.bind(0, '127.0.0.1', resolve));
  const { port } = free.address();
  free.close();
  const intakes = startIntakes(
    [
      { id: 'udp1', udp: port, host: '127.0.0.1' },
      { id: 'gateway', tcp: '127.0.0.1:1' },
      { id: 'serial1', serial: '/dev/hawse-does-not-exist', baud: 4800 },
    ],
    { line, link },
  );
  running.push(...intakes);
  expect(intakes.map(({ id }) => id)).toEqual(['udp1', 'gateway', 'serial1']);
  await heard.until(({ links }) => new Set(links.map(({ id }) => id)).size === 3);
  expect(heard.links.find(({ id }) => id === 'serial1')).toEqual({
    id: 'serial1',
    up: false,
    detail: 'there is no /dev/hawse-does-not-exist: is it plugged in?',
  });
  const socket = createSocket('udp4');
  socket.send('x'.repeat(600), port, '127.0.0.1');
  await heard.until(({ lines }) => lines.length > 0);
  socket.close();
  expect(heard.texts()).toEqual(['(600 bytes without line end or start of a sentence)']);
});
