import { isIP } from 'node:net';
import { networkInterfaces } from 'node:os';

/** What to open in a browser: on this computer, and on others on the boat's network. */
export function addressesOf(host: string, port: number): { here: string[]; others: string[] } {
  const everywhere = host === '0.0.0.0' || host === '::' || host === '';
  const local = everywhere || host === 'localhost' || host === '::1' || host.startsWith('127.');
  const outside = everywhere ? ownAddresses() : local ? [] : [host];
  return {
    here: local ? [`http://${everywhere ? 'localhost' : bracketed(host)}:${port}/`] : [],
    others: outside.map((address) => `http://${bracketed(address)}:${port}/`),
  };
}

/** The code stands behind a #, which browsers keep to themselves: it gets into no log on the way. */
export const pairingAddress = (address: string, code: string): string => `${address}phones#${code}`;

/** IPv4 only: phones take it, people can type it. */
function ownAddresses(): string[] {
  return Object.values(networkInterfaces())
    .flatMap((addresses) => addresses ?? [])
    .filter(({ family, internal }) => family === 'IPv4' && !internal)
    .map(({ address }) => address);
}

const bracketed = (host: string): string => (isIP(host) === 6 ? `[${host}]` : host);
