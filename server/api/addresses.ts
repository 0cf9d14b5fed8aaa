import { isIP } from 'node:net';
import { networkInterfaces } from 'node:os';

/** What to open in a browser: here without the key, which this computer does not need, on the boat's network with it. */
export function addressesOf(host: string, port: number, key: string): string[] {
  const everywhere = host === '0.0.0.0' || host === '::' || host === '';
  const here = everywhere || host === 'localhost' || host === '::1' || host.startsWith('127.');
  const outside = everywhere ? ownAddresses() : here ? [] : [host];
  const query = key === '' ? '' : `?key=${encodeURIComponent(key)}`;
  return [
    ...(here ? [`http://${everywhere ? 'localhost' : bracketed(host)}:${port}/`] : []),
    ...outside.map((address) => `http://${bracketed(address)}:${port}/${query}`),
  ];
}

/** IPv4 only: phones take it, people can type it. */
function ownAddresses(): string[] {
  return Object.values(networkInterfaces())
    .flatMap((addresses) => addresses ?? [])
    .filter(({ family, internal }) => family === 'IPv4' && !internal)
    .map(({ address }) => address);
}

const bracketed = (host: string): string => (isIP(host) === 6 ? `[${host}]` : host);
