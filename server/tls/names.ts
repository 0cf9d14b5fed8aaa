import { isIP, isIPv4 } from 'node:net';

/** Networks that no one owns alone (RFC 1918, 3927, 1122, 4193, 4291): where a boat's computer may ever be. */
export const PERMITTED_NETS = [
  '10.0.0.0/8',
  '172.16.0.0/12',
  '192.168.0.0/16',
  '169.254.0.0/16',
  '127.0.0.0/8',
  'fc00::/7',
  'fe80::/10',
  '::1/128',
] as const;

/** What the certificate speaks for. */
export interface Subject {
  dns: string[];
  ips: string[];
}

const LABEL = /^[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?$/;

/** A host name in small letters, or undefined when a certificate cannot carry it. */
export function hostName(told: string): string | undefined {
  const name = told.toLowerCase().replace(/\.$/, '');
  if (name === '' || name.length > 253 || isIP(name) !== 0) return undefined;
  return name.split('.').every((label) => LABEL.test(label)) ? name : undefined;
}

/** Names of the boat's computer, each once, in a fixed order. What cannot be carried is left out. */
export function subjectOf(names: readonly string[], addresses: readonly string[]): Subject {
  const sorted = (items: readonly string[]) => [...new Set(items)].sort();
  return {
    dns: sorted(names.flatMap((name) => hostName(name) ?? [])),
    ips: sorted([...addresses, '127.0.0.1', '::1'].filter(isOfABoat)),
  };
}

/** Whether the authority may speak for that address: public ones belong to somebody else tomorrow. */
export function isOfABoat(address: string): boolean {
  if (isIPv4(address)) {
    const [a = 0, b = 0] = address.split('.').map(Number);
    return (
      a === 10 ||
      a === 127 ||
      (a === 172 && b >= 16 && b < 32) ||
      (a === 192 && b === 168) ||
      (a === 169 && b === 254)
    );
  }
  return isIP(address) === 6 && (address === '::1' || /^f[cd][0-9a-f]{2}:/i.test(address));
}

/** Whether a name lies within one of the constraints: it, or a name below it (RFC 5280 §4.2.1.10). */
export const isWithin = (name: string, permitted: readonly string[]): boolean =>
  permitted.some((base) => name === base || name.endsWith(`.${base}`));
