import { BACKSLASH, COLON, COMMA } from './characters.ts';
import { checksum, checksumBefore, checksumDigits } from './checksum.ts';
import { decimal } from './decimal.ts';
import type { Rejection, Tag } from './decoded.ts';

const C = 'c'.charCodeAt(0);
const S = 's'.charCodeAt(0);

/** A `c:` from here on is milliseconds: as seconds it would be the year 5138, as milliseconds it is 1973. */
const MILLISECONDS_FROM = 1e11;

/** What stands in front of a sentence: the TAG blocks' content, and where the sentence begins. */
export type TagRead =
  | { ok: true; tag: Tag | undefined; next: number }
  | { ok: false; reason: Rejection; why: string };

/**
 * Reads the TAG blocks `\…*hh\` at the beginning of `text`, none, one or several (a recorder puts its own before that of a
 * gateway); the first to name a time or a source holds. A block must carry its own checksum, unless `requireChecksum` is false
 * and it has none. Keys that hawse does not use are passed over, and a `c:` that is not a number is an unknown time.
 * Source: gpsd AIVDM.adoc, "TAG block".
 */
export function readTags(text: string, requireChecksum: boolean): TagRead {
  let next = 0;
  let tag: Tag | undefined;
  while (text.charCodeAt(next) === BACKSLASH) {
    const from = next + 1;
    const end = text.indexOf('\\', from);
    if (end < 0) return { ok: false, reason: 'malformed', why: 'TAG block has no end' };
    const sent = checksumBefore(text, end);
    const to = sent < 0 ? end : end - 3;
    if (sent < 0) {
      const star = text.indexOf('*', from);
      if (requireChecksum || (star >= 0 && star < end))
        return { ok: false, reason: 'checksum', why: 'TAG block does not end with a checksum *hh' };
    } else {
      const sum = checksum(text, from, to);
      if (sum !== sent)
        return {
          ok: false,
          reason: 'checksum',
          why: `TAG block has checksum ${checksumDigits(sent)}, its characters give ${checksumDigits(sum)}`,
        };
    }
    tag ??= {};
    readKeys(text, from, to, tag);
    next = end + 1;
  }
  return { ok: true, tag, next };
}

function readKeys(text: string, from: number, to: number, tag: Tag): void {
  for (let start = from; start < to; ) {
    let end = start;
    while (end < to && text.charCodeAt(end) !== COMMA) end++;
    if (text.charCodeAt(start + 1) === COLON) {
      const key = text.charCodeAt(start);
      if (key === C && tag.at === undefined) {
        const c = decimal(text, start + 2, end);
        if (c !== undefined && c >= 0) tag.at = c >= MILLISECONDS_FROM ? c / 1000 : c;
      } else if (key === S && tag.source === undefined && end > start + 2) {
        tag.source = text.slice(start + 2, end);
      }
    }
    start = end + 1;
  }
}

/** Printable ASCII without the characters that would end the field, the block or the sentence. */
const SOURCE = /^[\x20-\x7e]+$/;
const RESERVED = /[\\*,$!]/;

/**
 * The TAG block that hawse writes in front of every sentence that it keeps: `\s:udp1,c:1700000000.250*hh\`. `at` is UNIX seconds,
 * written with three to six decimals: to the microsecond. Throws RangeError for a time before 1970 or beyond 5138, or a source
 * that is not printable ASCII or holds one of `\ * , $ !`: that would be an error in hawse, not in what it received.
 */
export function formatTag(at: number, source: string): string {
  if (!(at >= 0 && at < MILLISECONDS_FROM)) throw new RangeError(`time ${at} is not UNIX seconds`);
  if (!SOURCE.test(source) || RESERVED.test(source))
    throw new RangeError(`"${source}" cannot be the source in a TAG block`);
  const seconds = at.toFixed(6).replace(/0{1,3}$/, '');
  const body = `s:${source},c:${seconds}`;
  return `\\${body}*${checksumDigits(checksum(body, 0, body.length))}\\`;
}
