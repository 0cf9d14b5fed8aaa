import { withChecksum } from '../../shared/sentences/checksum.ts';

/** Longest sentence with `$` and line end (IEC 61162-1). */
export const LONGEST = 82;
const LINE_END = 2;
const CHECKSUM = 3;

/** Characters that have a meaning in a sentence, beside all that are not printable ASCII (IEC 61162-1, reserved characters). */
const RESERVED = /[$*,!\\^~]|[^\x20-\x7d]/;
/** Signs of our own words that ISO 8859-1, which `^hh` can write, does not have. */
const PLAINER: Readonly<Record<string, string>> = {
  '–': '-',
  '—': '-',
  '−': '-',
  '’': "'",
  '‘': "'",
  '“': '"',
  '”': '"',
  '…': '...',
  '≥': '>=',
  '≤': '<=',
  '\n': ' ',
  '\t': ' ',
};

/** Free text as single characters that may stand in a field, each written out or as `^hh`. */
function written(text: string): string[] {
  return [...text]
    .flatMap((sign) => [...(PLAINER[sign] ?? sign)])
    .map((sign) => {
      if (!RESERVED.test(sign)) return sign;
      const code = sign.codePointAt(0)!;
      return code < 256 ? `^${code.toString(16).toUpperCase().padStart(2, '0')}` : '?';
    });
}

/** Text for a field of at most `room` characters as sent; never cut inside an escape. */
export function field(text: string, room: number): string {
  let out = '';
  for (const sign of written(text)) {
    if (out.length + sign.length > room) break;
    out += sign;
  }
  return out;
}

/** A whole sentence with checksum and line end; its last field is free text and is cut to what the standard's length leaves. */
export function sentence(address: string, fields: readonly (string | number)[], text?: string): string {
  const body = `$${address},${fields.join(',')}`;
  if (text === undefined) return `${withChecksum(body)}\r\n`;
  const room = LONGEST - LINE_END - CHECKSUM - body.length - 1;
  return `${withChecksum(`${body},${field(text, room)}`)}\r\n`;
}

/** hhmmss.ss of a UNIX time in seconds. */
export function utc(at: number): string {
  const hundredths = Math.floor(at * 100 + 1e-4);
  const two = (n: number) => String(n).padStart(2, '0');
  const seconds = Math.floor(hundredths / 100);
  const [h, m, s] = [Math.floor(seconds / 3600) % 24, Math.floor(seconds / 60) % 60, seconds % 60];
  return `${two(h)}${two(m)}${two(s)}.${two(hundredths % 100)}`;
}
