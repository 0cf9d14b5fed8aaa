import { timingSafeEqual } from 'node:crypto';
import { mayDo, type Role } from '../../shared/access.ts';
import { codeInWords, hashOf, newCode, readCode } from './secret.ts';

/** How long a code is good for: to fetch the phone, not to be found on a note next week. */
export const PAIRING_MS = 10 * 60_000;
/** Wrong codes from all addresses together that close the pairing: of 30⁸ codes that leaves one chance in ten billion. */
export const MOST_WRONG_CODES = 50;

/** A code that a phone may be paired by, once. */
export interface OpenPairing {
  /** As it is read and typed: ABCD-EFGH. */
  code: string;
  /** The most that a phone may get. */
  role: Role;
  /** How much longer. */
  seconds: number;
}

export type Redeemed =
  | { ok: true; role: Role }
  | { ok: false; why: 'closed' | 'wrong' | 'closed-by-guesses' | 'role' };

export interface Pairing {
  /** Makes a code; an older one is no good any more. */
  open(role: Role): OpenPairing;
  current(): OpenPairing | undefined;
  close(): void;
  /**
   * Judges a code. `act` is called when it is right, and only when that succeeds is the code spent: what it throws is thrown
   * on, and the phone may try again.
   */
  redeem(typed: string, wanted: Role | undefined, act: (role: Role) => void): Redeemed;
}

/** `nowMs`: monotonic. */
export function createPairing(nowMs: () => number): Pairing {
  let held: { code: string; role: Role; until: number; wrong: number } | undefined;

  function valid() {
    if (held && nowMs() >= held.until) held = undefined;
    return held;
  }

  function current(): OpenPairing | undefined {
    const open = valid();
    return (
      open && {
        code: codeInWords(open.code),
        role: open.role,
        seconds: Math.ceil((open.until - nowMs()) / 1000),
      }
    );
  }

  return {
    open(role) {
      held = { code: newCode(), role, until: nowMs() + PAIRING_MS, wrong: 0 };
      return current()!;
    },
    current,
    close() {
      held = undefined;
    },
    redeem(typed, wanted, act) {
      const open = valid();
      if (!open) return { ok: false, why: 'closed' };
      // Hashes have equal lengths, whatever was typed.
      if (!timingSafeEqual(Buffer.from(hashOf(readCode(typed))), Buffer.from(hashOf(open.code)))) {
        if (++open.wrong < MOST_WRONG_CODES) return { ok: false, why: 'wrong' };
        held = undefined;
        return { ok: false, why: 'closed-by-guesses' };
      }
      const role = wanted ?? open.role;
      if (!mayDo(open.role, role)) return { ok: false, why: 'role' };
      act(role);
      held = undefined;
      return { ok: true, role };
    },
  };
}
