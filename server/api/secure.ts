import type { IncomingMessage } from 'node:http';
import { createServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import type { Duplex } from 'node:stream';
import { type App, REQUEST_MS, SILENCE_MS } from './app.ts';
import { guard } from './connections.ts';
import type { Counters } from './counters.ts';

/** Certificate chain and key, PEM. */
export interface SecureContext {
  cert: string;
  key: string;
}

/** https beside http: the same calls, pages and live socket. */
export interface Secure {
  /** Rejects, with the system's own error, when the port can't be had. Port 0: any free one. */
  listen(port: number, host: string): Promise<number>;
  /** For new connections; those that are open go on. */
  renew(context: SecureContext): void;
  close(): Promise<void>;
}

type Upgrade = (request: IncomingMessage, socket: Duplex, head: Buffer) => void;

/** `app` must be ready. */
export function createSecure(app: App, context: SecureContext, upgrade: Upgrade, counters: Counters): Secure {
  const server = createServer({ ...context, minVersion: 'TLSv1.2' }, (request, response) =>
    app.routing(request, response),
  );
  server.requestTimeout = REQUEST_MS;
  server.setTimeout(SILENCE_MS);
  guard(server, counters, (request, response) => app.routing(request, response));
  server.on('upgrade', upgrade);
  // A phone that does not trust the boat yet hangs up: no fault of ours, and nothing to log each time.
  server.on('tlsClientError', (_error, socket) => socket.destroy());
  server.on('clientError', (_error, socket) => socket.destroy());

  return {
    listen: (port, host) =>
      new Promise((resolve, reject) => {
        server.once('error', reject);
        server.listen(port, host, () => {
          server.off('error', reject);
          server.on('error', (error) => app.log.error({ err: error }, 'the https server met an error'));
          resolve((server.address() as AddressInfo).port);
        });
      }),
    renew: (next) => server.setSecureContext({ ...next, minVersion: 'TLSv1.2' }),
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}
