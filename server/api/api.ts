import { randomInt } from 'node:crypto';
import type { AddressInfo } from 'node:net';
import type { Logger } from 'pino';
import type { Event } from '../../shared/events.ts';
import type { PageView } from '../../shared/state.ts';
import type { TrackPoint } from '../../shared/watch/view.ts';
import { type AccessPorts, createAccess } from './access.ts';
import { addressesOf, pairingAddress } from './addresses.ts';
import { type App, createApp } from './app.ts';
import { createCounters } from './counters.ts';
import type { Desk } from './desk.ts';
import { describeApi } from './documentation.ts';
import { createHostCheck } from './hosts.ts';
import type { OpenPhone } from './live/clients.ts';
import { createLive, LIVE_PATH } from './live/live.ts';
import { servePages } from './pages.ts';
import { Problem } from './problem.ts';
import { addRoutes } from './routes/all.ts';
import { createSecure, type SecureContext } from './secure.ts';
import { addTrust, type Trust } from './trust.ts';

export interface ApiOptions {
  desk: Desk;
  /** Who may do what, and the keys of this boat. */
  access: AccessPorts;
  /** Host names that pages may be opened under, beside this machine's own. */
  names: readonly string[];
  /** Folder of the built pages. */
  webRoot: string;
  log: Logger;
  /** https beside http; absent: none. */
  secure?: { context(): SecureContext; trust: Trust };
  version?: string;
  /** Milliseconds; changed by tests only. */
  timing?: { coalesceMs?: number; beatMs?: number; helmLimitMs?: number };
}

/** HTTP and the live socket. */
export interface Api {
  /** Rejects, in words, when the port can't be had. Port 0: any free one. */
  listen(port: number, host: string): Promise<{ port: number; addresses: string[]; outside: string[] }>;
  /** https beside it, once it listens; rejects with the system's error. Port 0: any free one. */
  listenSecurely(port: number, host: string): Promise<number>;
  /** There is a new certificate. */
  renewSecurity(): void;
  /** The state may have changed: pages are told what is different, at most four times a second. */
  changed(): void;
  /** Told to the pages at once. */
  event(event: Event): void;
  trackPoint(point: TrackPoint): void;
  /** Pages that are open now. */
  pages(): PageView[];
  /** Those of them that have sent a pulse, with what tells phones apart. */
  phones(): OpenPhone[];
  /** Tells the pages that nobody watches any more, and lets no other in. */
  goodbye(reason: string): Promise<void>;
  close(): Promise<void>;
  /** For tests: the web server. */
  app: App;
}

export async function createApi(options: ApiOptions): Promise<Api> {
  const { desk, log, timing = {} } = options;
  const access = createAccess(options.access);
  /** Where phones find this boat; known once it listens. */
  let outside: string[] = [];
  const checkHost = createHostCheck(options.names);
  const counters = createCounters(() => live.pages().length);
  const live = createLive({
    desk,
    access,
    checkHost,
    counters,
    log,
    coalesceMs: timing.coalesceMs ?? 250,
    beatMs: timing.beatMs ?? 2000,
    // Any number that an earlier run is most unlikely to have used.
    first: randomInt(2 ** 47),
  });
  const app = await createApp({ checkHost, counters, log });
  await describeApi(app, options.version ?? '1');
  await addRoutes(app, {
    desk,
    access,
    counters,
    helm: live.helm,
    helmLimitMs: timing.helmLimitMs ?? 3000,
    given: options.access,
    pairingAddresses: (code) => outside.map((address) => pairingAddress(address, code)),
    dropKey: live.dropKey,
  });
  await servePages(app, options.webRoot);
  if (options.secure) addTrust(app, options.secure.trust);
  app.get(LIVE_PATH, { schema: { hide: true } as object }, (_request, reply) => {
    reply.header('upgrade', 'websocket');
    throw new Problem('upgrade-needed', 'Open it as a WebSocket: ws://…/live?since=SEQ&page=PAGE&name=NAME.');
  });
  app.server.on('upgrade', live.upgrade);
  app.addHook('preClose', live.close);
  await app.ready();
  const secure = options.secure && createSecure(app, options.secure.context(), live.upgrade, counters);

  return {
    app,
    async listen(port, host) {
      await app.listen({ port, host }).catch((error: NodeJS.ErrnoException) => {
        throw new ListenError(whyNot(error, port, host), { cause: error });
      });
      const taken = (app.server.address() as AddressInfo).port;
      const { here, others } = addressesOf(host, taken);
      outside = others;
      return { port: taken, addresses: [...here, ...others], outside };
    },
    async listenSecurely(port, host) {
      if (!secure) throw new Error('there is no certificate');
      return secure.listen(port, host);
    },
    renewSecurity: () => secure?.renew(options.secure!.context()),
    changed: live.changed,
    event: live.event,
    trackPoint: live.trackPoint,
    pages: live.pages,
    phones: live.phones,
    goodbye: live.goodbye,
    async close() {
      await Promise.all([app.close(), secure?.close()]);
    },
  };
}

class ListenError extends Error {
  /** The command line prints errors of this name without a stack: it is the configuration that is wrong. */
  override name = 'ConfigError';
}

function whyNot(error: NodeJS.ErrnoException, port: number, host: string): string {
  switch (error.code) {
    case 'EADDRINUSE':
      return `Port ${port} on ${host} is taken by another program: stop that, or choose another port (--port, server.port).`;
    case 'EACCES':
      return `Port ${port} on ${host} is not allowed for this user: choose one from 1024 to 65535.`;
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
      return `This computer has no address ${host}: use 0.0.0.0 for all of them, or 127.0.0.1 for this computer only.`;
    default:
      return `Cannot listen on port ${port} of ${host}: ${error.message}`;
  }
}
