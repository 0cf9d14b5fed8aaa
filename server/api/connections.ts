import type { IncomingMessage, ServerResponse } from 'node:http';
import type { Server } from 'node:net';
import type { Counters } from './counters.ts';

const MOST_CONNECTIONS = 512;

/** What holds for every web server of the boat, with TLS and without. */
export function guard(
  server: Server,
  counters: Counters,
  answer: (request: IncomingMessage, response: ServerResponse) => void,
): void {
  server.maxConnections = MOST_CONNECTIONS;
  shareConnections(server, () => counters.droppedSockets.inc({ reason: 'too-many-from-one' }));
  // An expectation that is not known may be passed over (RFC 9110, 10.1.1); node would refuse it without a word.
  server.on('checkExpectation', answer);
}

/** Connections of one address at most. A browser opens six and one a page; the rest are for the devices behind a proxy or a repeater. */
const MOST_FROM_ONE = 64;
const LOOPBACK = /^(?:::ffff:)?127\.|^::1$/;

/**
 * Closes what one address opens beyond its share, so that a single broken or hostile machine cannot take all the places from
 * the phones that keep the watch. This computer is not held to it. `over` is told of each that was closed.
 */
export function shareConnections(
  server: Server,
  over: () => void,
  { most = MOST_FROM_ONE, free = (address: string) => LOOPBACK.test(address) } = {},
): void {
  const open = new Map<string, number>();
  server.on('connection', (socket) => {
    const address = socket.remoteAddress ?? '';
    if (free(address)) return;
    const count = (open.get(address) ?? 0) + 1;
    if (count > most) {
      over();
      socket.destroy();
      return;
    }
    open.set(address, count);
    socket.once('close', () => {
      const left = (open.get(address) ?? 1) - 1;
      if (left === 0) open.delete(address);
      else open.set(address, left);
    });
  });
}
