import type { IncomingMessage } from 'node:http';
import type { TLSSocket } from 'node:tls';
import { type KeyView, mayDo, type Role } from '../../shared/access.ts';
import { createTally } from './tally.ts';

/** Who may do what by hawse.yaml; keys come on top. */
export interface AccessPolicy {
  /** `anyone` on the boat's network may look, or only paired devices. */
  look: 'anyone' | 'paired';
  /** What this computer itself may do without a key. */
  thisComputer: Role;
}

export interface OpenPairing {
  code: string;
  role: Role;
  seconds: number;
}

/** What the api asks of the room of keys. */
export interface Keys {
  list(): KeyView[];
  full(): boolean;
  find(key: string): KeyView | undefined;
  add(name: string, role: Role): { key: string; view: KeyView };
  takeAway(id: string): KeyView | undefined;
}

export interface Pairing {
  open(role: Role): OpenPairing;
  current(): OpenPairing | undefined;
  close(): void;
  redeem(
    code: string,
    wanted: Role | undefined,
    act: (role: Role) => void,
  ): { ok: true } | { ok: false; why: 'closed' | 'wrong' | 'closed-by-guesses' | 'role' };
}

export interface AccessPorts extends AccessPolicy {
  keys: Keys;
  pairing: Pairing;
}

/** Who asks. Without `role` not even looking is allowed. */
export interface Standing {
  role?: Role;
  /** The key that was borne. */
  key?: KeyView;
  /** What is wrong about the key that was told. */
  fault?: 'wrong-key' | 'too-many-keys';
}

export interface Access {
  readonly policy: AccessPolicy;
  standing(request: IncomingMessage): Standing;
  /** Whether the keys told with a request need not be looked at for this. */
  allowsAnyone(needed: Role): boolean;
  /** Wrong codes from this address, like wrong keys: whether it has told too many, and that it has told one more. */
  guesses: { tooMany(request: IncomingMessage): boolean; add(request: IncomingMessage): void };
  /** A phone that was paired is no guesser. */
  forgive(request: IncomingMessage): void;
}

export const COOKIE = 'hawse-key';
/** Over https: browsers take a cookie of such a name only from the boat itself, over https, for the whole site. */
export const SECURE_COOKIE = '__Host-hawse-key';
/** Wrong keys or codes a minute from one address, before no key from there is looked at until the minute is over. */
const WRONG_FROM_ONE = 30;
/**
 * The same from all addresses together: whoever has a network of addresses is no further. Addresses that have borne a right
 * key are not held to it, since a stranger's guesses must not keep the skipper from an alarm.
 */
const WRONG_FROM_ALL = 300;
const MINUTE_MS = 60_000;
const ALL = 'all';
const KNOWN_ADDRESSES = 256;

export function createAccess({ keys, look, thisComputer }: AccessPorts): Access {
  const wrong = createTally(MINUTE_MS);
  const trusted = new Set<string>();
  /** Several look at one request: its guess counts once. */
  const judged = new WeakMap<IncomingMessage, Standing>();

  const tooMany = (request: IncomingMessage): boolean => {
    const address = addressOf(request);
    return (
      wrong.count(address) >= WRONG_FROM_ONE ||
      (wrong.count(ALL) >= WRONG_FROM_ALL && !trusted.has(address) && !isThisComputer(request))
    );
  };

  function add(request: IncomingMessage): void {
    wrong.add(addressOf(request));
    wrong.add(ALL);
  }

  function judge(request: IncomingMessage): Standing {
    const base = isThisComputer(request) ? thisComputer : look === 'anyone' ? 'look' : undefined;
    const without = base === undefined ? {} : { role: base };
    const told = keysIn(request);
    if (told.length === 0) return without;
    if (tooMany(request)) return { ...without, fault: 'too-many-keys' };
    for (const text of told) {
      const key = keys.find(text);
      if (!key) continue;
      trust(addressOf(request));
      return { key, role: mayDo(base, key.role) ? base! : key.role };
    }
    add(request);
    return { ...without, fault: 'wrong-key' };
  }

  function trust(address: string): void {
    trusted.delete(address);
    trusted.add(address);
    if (trusted.size > KNOWN_ADDRESSES) trusted.delete(trusted.values().next().value!);
  }

  return {
    policy: { look, thisComputer },
    standing(request) {
      const known = judged.get(request);
      if (known) return known;
      const found = judge(request);
      judged.set(request, found);
      return found;
    },
    allowsAnyone: (needed) => look === 'anyone' && needed === 'look',
    guesses: { tooMany, add },
    forgive(request) {
      wrong.forget(addressOf(request));
      trust(addressOf(request));
    },
  };
}

const addressOf = ({ socket }: IncomingMessage): string => socket.remoteAddress ?? '';

/** Longer ones are none of ours. */
const LONGEST_KEY = 200;

/** Every key that is told: a browser may hold an older one beside the one that is right. */
function keysIn({ headers }: IncomingMessage): string[] {
  const bearer = /^Bearer (.+)$/i.exec(headers.authorization ?? '')?.[1];
  const cookies = (headers.cookie ?? '').split(/; */).flatMap((pair) => {
    const at = pair.indexOf('=');
    const name = pair.slice(0, at);
    return name === SECURE_COOKIE || name === COOKIE ? [decoded(pair.slice(at + 1))] : [];
  });
  return [...(bearer === undefined ? [] : [bearer]), ...cookies]
    .slice(0, 3)
    .map((key) => key.slice(0, LONGEST_KEY));
}

/** Cookies of earlier versions were written with encodeURIComponent; what cannot be read so is a wrong key. */
function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

const isSecure = ({ socket }: IncomingMessage): boolean => (socket as Partial<TLSSocket>).encrypted === true;

/** Gives the key to a browser, for 400 days, which is as long as browsers keep a cookie; its scripts never see it. */
export const cookieWith = (key: string, request: IncomingMessage): string =>
  isSecure(request)
    ? `${SECURE_COOKIE}=${key}; Path=/; HttpOnly; Secure; SameSite=Strict; Max-Age=${400 * 86_400}`
    : `${COOKIE}=${key}; Path=/; HttpOnly; SameSite=Strict; Max-Age=${400 * 86_400}`;

/** Takes both away: a key that opens nothing must not be told again and again. */
export const noCookies = (request: IncomingMessage): string[] => [
  `${COOKIE}=; Path=/; HttpOnly; SameSite=Strict; Max-Age=0`,
  ...(isSecure(request) ? [`${SECURE_COOKIE}=; Path=/; HttpOnly; Secure; SameSite=Strict; Max-Age=0`] : []),
];

const LOOPBACK = /^(?:::ffff:)?127\.\d+\.\d+\.\d+$|^::1$/;

/** A request passed on by a proxy on this computer is not this computer's own. */
export function isThisComputer({ socket, headers }: IncomingMessage): boolean {
  return (
    LOOPBACK.test(socket.remoteAddress ?? '') &&
    headers['x-forwarded-for'] === undefined &&
    headers.forwarded === undefined
  );
}
