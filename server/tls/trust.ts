import { isIP, isIPv6 } from 'node:net';
import type { Tls } from './keep.ts';
import { isOfABoat } from './names.ts';
import { type Place, trustPage } from './page.ts';
import { profileOf } from './profile.ts';

export interface TrustOptions {
  boat: string;
  tls: Tls;
  /** Ports that are really listened on; undefined: not (yet). */
  ports(): { http: number; https: number | undefined };
  addresses(): readonly string[];
}

const bracketed = (host: string): string => (isIPv6(host) ? `[${host}]` : host);

/** The page /trust and its two downloads. */
export function createTrust({ boat, tls, ports, addresses }: TrustOptions) {
  /** Phones find the boat by an address more surely than by a name: the one that was used, else her first. */
  function placeFor(host: string): Place {
    const { http, https } = ports();
    const own = addresses().filter(isOfABoat);
    const isReached = isIP(host) !== 0 && !host.startsWith('127.') && host !== '::1';
    const best = isReached ? host : (own[0] ?? host);
    return {
      trust: `http://${bracketed(best)}:${http}/trust`,
      ...(https === undefined ? {} : { secure: `https://${bracketed(best)}:${https}/` }),
    };
  }
  return {
    page: (host: string) =>
      trustPage({
        boat,
        fingerprint: tls.root.fingerprint,
        until: tls.root.until,
        names: [...tls.subject().dns, ...tls.subject().ips],
        place: placeFor(host.replace(/^\[|\]$/g, '')),
      }),
    certificate: () => tls.root.der,
    profile: () => profileOf(boat, tls.root.der, tls.root.fingerprint),
    placeFor,
  };
}
