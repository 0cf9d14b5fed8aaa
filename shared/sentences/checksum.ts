import { BANG, DOLLAR, hexDigit, STAR } from './characters.ts';

/** XOR of the characters from `from` up to, not including, `to` (IEC 61162-1: between `$` or `!` and `*`). */
export function checksum(text: string, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum ^= text.charCodeAt(i);
  return sum;
}

/** A checksum as it is sent: two capital hexadecimal digits. */
export const checksumDigits = (sum: number): string => sum.toString(16).toUpperCase().padStart(2, '0');

/** A sentence ready to send, without line end: `GPHDT,274.07,T` becomes `$GPHDT,274.07,T*03`. A leading `$` or `!` is kept. */
export function withChecksum(body: string): string {
  const first = body.charCodeAt(0);
  const text = first === DOLLAR || first === BANG ? body : `$${body}`;
  return `${text}*${checksumDigits(checksum(text, 1, text.length))}`;
}

/** The checksum that stands in front of `end` as `*hh`, upper or lower case; −1 when none stands there. */
export function checksumBefore(text: string, end: number): number {
  if (end < 3 || text.charCodeAt(end - 3) !== STAR) return -1;
  const high = hexDigit(text.charCodeAt(end - 2));
  const low = hexDigit(text.charCodeAt(end - 1));
  return high < 0 || low < 0 ? -1 : high * 16 + low;
}
