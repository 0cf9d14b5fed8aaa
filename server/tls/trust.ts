import { isIP, isIPv4, isIPv6 } from 'node:net';
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

const isLoopback = (host: string): boolean => host.startsWith('127.') || host === '::1';
const bracketed = (host: string): string => (isIPv6(host) ? `[${host}]` : host);

/** The page /trust and its two downloads. */
export function createTrust({ boat, tls, ports, addresses }: TrustOptions) {
  /**
   * Phones find the boat by an address more surely than by a name: the one that was used, else her first. IPv4, as people type it.
   * https only under what the certificate speaks for.
   */
  function placeFor(host: string): Place {
    const { http, https } = ports();
    const { dns, ips } = tls.subject();
    const isReached = isIP(host) !== 0 && !isLoopback(host);
    const own = addresses().filter((address) => isIPv4(address));
    const best = isReached ? host : (own.find(isOfABoat) ?? own[0] ?? host);
    const vouched =
      ips.includes(best) || dns.includes(best)
        ? best
        : (dns.find((name) => name.endsWith('.local')) ?? 'localhost');
    return {
      trust: `http://${bracketed(best)}:${http}/trust`,
      ...(https === undefined ? {} : { secure: `https://${bracketed(vouched)}:${https}/` }),
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
