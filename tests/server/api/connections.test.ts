import { once } from 'node:events';
import { type AddressInfo, connect, createServer, type Socket } from 'node:net';
import { expect, test } from 'vitest';
import { shareConnections } from '../../../server/api/connections.ts';

const opened: Socket[] = [];

async function serverWith(most: number, free: (address: string) => boolean) {
  const server = createServer((socket) => socket.on('error', () => {}));
  let over = 0;
  shareConnections(server, () => over++, { most, free });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  return {
    over: () => over,
    /** Resolves to whether the connection was let stand: the server ends those that it does not. */
    async open(localAddress: string): Promise<Socket> {
      const socket = connect({ port, host: '127.0.0.1', localAddress });
      socket.on('error', () => {});
      opened.push(socket);
      await once(socket, 'connect');
      return socket;
    },
    close() {
      for (const socket of opened.splice(0)) socket.destroy();
      server.close();
    },
  };
}

test('one address has its share of the connections and no more; others are not kept out by it', async () => {
  const it = await serverWith(3, () => false);
  const first = await it.open('127.0.0.2');
  await it.open('127.0.0.2');
  await it.open('127.0.0.2');
  const beyond = await it.open('127.0.0.2');
  await once(beyond, 'close');
  expect(it.over()).toBe(1);
  const other = await it.open('127.0.0.3');
  other.write('x');
  first.destroy();
  // The place is given again as soon as the server has noticed.
  for (let closed = true; closed; ) {
    const again = await it.open('127.0.0.2');
    closed = await Promise.race([
      once(again, 'close').then(() => true),
      new Promise<boolean>((resolve) => setTimeout(() => resolve(false), 100)),
    ]);
  }
  expect([first.destroyed, other.destroyed]).toEqual([true, false]);
  it.close();
});

test('this computer is not held to it', async () => {
  const it = await serverWith(1, (address) => address.endsWith('127.0.0.1'));
  for (let i = 0; i < 10; i++) await it.open('127.0.0.1');
  expect(it.over()).toBe(0);
  it.close();
});
