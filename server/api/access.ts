import { createHash, timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';
import { createTally } from './tally.ts';

/** Who may command: this computer itself, and whoever bears the boat's key. Everybody on the boat's network may look. */
export type Standing = 'may-command' | 'no-key' | 'wrong-key' | 'too-many-keys';

export interface Access {
  standing(request: IncomingMessage): Standing;
  /** The same for a key told in the address. */
  judge(key: string, request: IncomingMessage): Exclude<Standing, 'no-key'>;
}

export const COOKIE = 'hawse-key';
/** Wrong keys a minute from one address, before no key from there is looked at until the minute is over. */
const WRONG_KEYS = 30;
const MINUTE_MS = 60_000;

/** With an empty key (its file was lost in a power cut, say) no key is right: only this computer may command. */
export function createAccess(key: string): Access {
  const right = key === '' ? undefined : digest(key);
  const wrong = createTally(MINUTE_MS);

  function judge(told: string, request: IncomingMessage): Exclude<Standing, 'no-key'> {
    const address = request.socket.remoteAddress ?? '';
    if (wrong.count(address) >= WRONG_KEYS) return 'too-many-keys';
    if (right && timingSafeEqual(digest(told), right)) return 'may-command';
    wrong.add(address);
    return 'wrong-key';
  }

  return {
    judge,
    standing(request) {
      if (isThisComputer(request)) return 'may-command';
      const told = keyIn(request);
      return told === undefined ? 'no-key' : judge(told, request);
    },
  };
}

/** Equal lengths for the comparison, whatever was told. */
const digest = (text: string): Buffer => createHash('sha256').update(text).digest();

function keyIn({ headers }: IncomingMessage): string | undefined {
  const bearer = /^Bearer (.+)$/i.exec(headers.authorization ?? '')?.[1];
  const pair = headers.cookie?.split(/; */).find((text) => text.startsWith(`${COOKIE}=`));
  return bearer ?? (pair && decoded(pair.slice(COOKIE.length + 1)));
}

/** The cookie was written with encodeURIComponent; what cannot be read so was not written here, and is a wrong key. */
function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

/** Gives the key to a browser, for 400 days, which is as long as browsers keep a cookie; its scripts never see it. */
export const cookieWith = (key: string): string =>
  `${COOKIE}=${encodeURIComponent(key)}; Path=/; HttpOnly; SameSite=Strict; Max-Age=${400 * 86_400}`;

const LOOPBACK = /^(?:::ffff:)?127\.\d+\.\d+\.\d+$|^::1$/;

/** A request passed on by a proxy on this computer is not this computer's own. */
export function isThisComputer({ socket, headers }: IncomingMessage): boolean {
  return (
    LOOPBACK.test(socket.remoteAddress ?? '') &&
    headers['x-forwarded-for'] === undefined &&
    headers.forwarded === undefined
  );
}
