import { read, write } from '../prefs.ts';

/** What this browser calls itself to the boat: the same whenever it comes back, so that a phone that was armed can be missed. */
export const phoneId: string = known() ?? made();

function known(): string | undefined {
  const kept = read('phone');
  return kept !== null && /^[0-9a-f]{16}$/.test(kept) ? kept : undefined;
}

/** Not `randomUUID`: plain http from another machine lacks it. */
function made(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(8));
  const id = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  write('phone', id);
  return id;
}

/** What a person calls the device in their hand. */
export const noun: 'phone' | 'tablet' | 'computer' = /Mobi|Android.*Mobile|iPhone/.test(navigator.userAgent)
  ? 'phone'
  : navigator.maxTouchPoints > 1
    ? 'tablet'
    : 'computer';
