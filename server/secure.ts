import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import type { Logger } from 'pino';
import type { Api } from './api/api.ts';
import { ownNames } from './api/hosts.ts';
import { openTls, type Tls } from './tls/keep.ts';
import { createMdns } from './tls/mdns.ts';
import { createTrust } from './tls/trust.ts';

/** Ties the room `tls` to the web server: https beside http, its renewal, and the boat's name on her network. */
export interface Security {
  /** For createApi. */
  secure: { context: Tls['context']; trust: ReturnType<typeof createTrust> };
  /** Where phones are led to https, and what they compare. */
  trust(): { address: string; secure?: string; fingerprint: string };
  /** Begins to serve https; the port, or undefined after it was told why not. */
  listen(api: Api, ports: { http: number; https: number }, host: string): Promise<number | undefined>;
  /** To be called now and then. */
  look(): void;
}

export interface SecurityOptions {
  data: string;
  boat: string;
  names: readonly string[];
  log: Logger;
  /** https is not served, or is again: a caution on the pages. */
  tell(raised: boolean, text: string): void;
}

/** This computer's addresses on all its networks. */
const ownAddresses = (): string[] =>
  Object.values(networkInterfaces())
    .flatMap((all) => all ?? [])
    .filter(({ internal }) => !internal)
    .map(({ address }) => address);

/** Those under which others reach a server that listens on `host`. */
function reachedBy(host: string): string[] {
  if (host === '0.0.0.0' || host === '::' || host === '') return ownAddresses();
  return host === 'localhost' || host === '::1' || host.startsWith('127.') ? [] : [host];
}

/** Undefined, after it was told why, when there can be no https: the watch does not depend on it. */
export async function openSecurity({
  data,
  boat,
  names,
  log,
  tell,
}: SecurityOptions): Promise<Security | undefined> {
  let tls: Tls;
  try {
    tls = await openTls({
      data,
      boat,
      names: ownNames(names),
      addresses: ownAddresses,
      now: Date.now,
      note: (text) => log.warn({ text }, 'https'),
    });
  } catch (error) {
    log.error({ err: error }, 'no https');
    tell(true, `https is not served: ${join(data, 'tls')} cannot be written (${(error as Error).message}).`);
    return undefined;
  }
  let ports: { http: number; https: number | undefined } = { http: 0, https: undefined };
  let served: Api | undefined;
  let listensOn = '';
  const trust = createTrust({ boat, tls, ports: () => ports, addresses: () => reachedBy(listensOn) });

  return {
    secure: { context: tls.context, trust },
    trust() {
      const { trust: address, secure } = trust.placeFor('localhost');
      return { address, ...(secure ? { secure } : {}), fingerprint: tls.root.fingerprint };
    },
    async listen(api, { http, https }, host) {
      served = api;
      listensOn = host;
      try {
        ports = { http, https: await api.listenSecurely(https, host) };
        tell(false, 'https is served.');
      } catch (error) {
        ports = { http, https: undefined };
        log.error({ err: error }, 'no https');
        tell(
          true,
          `https is not served: port ${https} cannot be had (${(error as Error).message}). See server.tls.port.`,
        );
      }
      return ports.https;
    },
    look() {
      tls.renew().then(
        (isNew) => {
          if (isNew) served?.renewSecurity();
        },
        (error) => log.error({ err: error }, 'the certificate cannot be renewed'),
      );
    },
  };
}

/** The name on the boat's network; undefined when it is off or cannot be. */
export function announce(
  name: string | false,
  host: string,
  log: Logger,
): { stop(): Promise<void> } | undefined {
  if (name === false || reachedBy(host).length === 0) return undefined;
  const note = (text: string) => log.warn({ text }, 'the name on the network');
  try {
    return createMdns({ name, addresses: () => reachedBy(host), note });
  } catch (error) {
    note((error as Error).message);
    return undefined;
  }
}
