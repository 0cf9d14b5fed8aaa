/** The bits of an AIS message, from its armoured payload: six bits a character (gpsd AIVDM.adoc, "AIVDM/AIVDO Payload Armoring"). */
export interface Bits {
  /** How many bits there are, fill bits left out. */
  length: number;
  sixes: Uint8Array;
}

const ZERO = '0'.charCodeAt(0);
/** Characters after "W" follow on "`": eight in between are not used. */
const LAST_OF_FIRST_RUN = 40;
const SIX_BIT_TEXT = '@ABCDEFGHIJKLMNOPQRSTUVWXYZ[\\]^_ !"#$%&\'()*+,-./0123456789:;<=>?';

/** `payload` must be of the 64 characters that the armour uses, as the sentence room has checked. */
export function bitsOf(payload: string, fillBits: number): Bits {
  const sixes = new Uint8Array(payload.length);
  for (let i = 0; i < payload.length; i++) {
    const value = payload.charCodeAt(i) - ZERO;
    sixes[i] = value > LAST_OF_FIRST_RUN ? value - 8 : value;
  }
  return { sixes, length: Math.max(0, payload.length * 6 - fillBits) };
}

/** The unsigned number in `size` bits (at most 30) from bit `from`; the caller sees to it that the message is long enough. */
export function unsigned({ sixes }: Bits, from: number, size: number): number {
  let value = 0;
  for (let i = from; i < from + size; i++)
    value = value * 2 + (((sixes[(i / 6) | 0] ?? 0) >> (5 - (i % 6))) & 1);
  return value;
}

/** The same, two's complement. */
export function signed(bits: Bits, from: number, size: number): number {
  const value = unsigned(bits, from, size);
  return value >= 2 ** (size - 1) ? value - 2 ** size : value;
}

/** Six-bit text without its padding of "@" and blanks; undefined when nothing is written. */
export function text(bits: Bits, from: number, size: number): string | undefined {
  let read = '';
  const to = Math.min(from + size, bits.length);
  for (let i = from; i + 6 <= to; i += 6) {
    const letter = SIX_BIT_TEXT[unsigned(bits, i, 6)]!;
    if (letter === '@') break;
    read += letter;
  }
  const trimmed = read.trim();
  return trimmed === '' ? undefined : trimmed;
}
