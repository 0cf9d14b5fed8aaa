import { checksum, checksumBefore } from '../sentences/checksum.ts';

const COMMA = 0x2c;
const DAY = 86_400;

/** A receiver's UTC: seconds since midnight, and with a date the UNIX time of that midnight. */
export interface Utc {
  timeOfDay: number;
  date?: number;
}

/**
 * The last UTC that a line tells in RMC, ZDA, GGA, GLL or GNS, whatever stands before the sentence. A sentence whose checksum is
 * wrong tells nothing; one without any is believed, since some recorders leave it out. Quick, because a replay asks for every line:
 * only these few fields are read.
 */
export function utcOf(line: string): Utc | undefined {
  let utc: Utc | undefined;
  for (let start = line.indexOf('$'); start >= 0; ) {
    const next = line.indexOf('$', start + 1);
    const read = READERS.get(line.slice(start + 3, start + 6));
    if (read && line.charCodeAt(start + 6) === COMMA) {
      const sentence = line.slice(start, next < 0 ? line.length : next).trimEnd();
      if (isBelieved(sentence)) utc = read(sentence) ?? utc;
    }
    start = next;
  }
  return utc;
}

function isBelieved(sentence: string): boolean {
  const star = sentence.indexOf('*');
  if (star < 0) return true;
  const end = star + 3;
  return checksumBefore(sentence, end) === checksum(sentence, 1, star);
}

type Reader = (sentence: string) => Utc | undefined;

/** Where the sentences have their time and date (IEC 61162-1). */
const READERS = new Map<string, Reader>([
  ['RMC', (sentence) => utc(field(sentence, 1), shortDate(field(sentence, 9)))],
  [
    'ZDA',
    (sentence) =>
      utc(field(sentence, 1), longDate(field(sentence, 2), field(sentence, 3), field(sentence, 4))),
  ],
  ['GGA', (sentence) => utc(field(sentence, 1))],
  ['GNS', (sentence) => utc(field(sentence, 1))],
  ['GLL', (sentence) => utc(field(sentence, 5))],
]);

/** Field `n` of a sentence, the address being field 0; empty when there is none. */
function field(sentence: string, n: number): string {
  let from = 0;
  for (let i = 0; i < n; i++) {
    from = sentence.indexOf(',', from) + 1;
    if (from === 0) return '';
  }
  let to = from;
  while (to < sentence.length && sentence.charCodeAt(to) !== COMMA && sentence.charCodeAt(to) !== 0x2a) to++;
  return sentence.slice(from, to);
}

function utc(time: string, date?: number): Utc | undefined {
  const hour = twoDigits(time, 0);
  const minute = twoDigits(time, 2);
  const second = twoDigits(time, 4);
  if (!(hour < 24 && minute < 60 && second <= 60)) return undefined;
  const fraction = time.length > 6 ? Number(time.slice(6)) : 0;
  if (!(fraction >= 0 && fraction < 1)) return undefined;
  const timeOfDay = hour * 3600 + minute * 60 + second + fraction;
  return date === undefined ? { timeOfDay } : { timeOfDay, date };
}

/** NaN when there are no two digits at `i`. */
function twoDigits(text: string, i: number): number {
  const high = text.charCodeAt(i) - 0x30;
  const low = text.charCodeAt(i + 1) - 0x30;
  return high >= 0 && high <= 9 && low >= 0 && low <= 9 ? high * 10 + low : Number.NaN;
}

/** `ddmmyy`; a two-digit year turns in 1980, where satellite time began. */
function shortDate(date: string): number | undefined {
  const year = twoDigits(date, 4);
  if (date.length !== 6) return undefined;
  return midnight(year < 80 ? 2000 + year : 1900 + year, twoDigits(date, 2), twoDigits(date, 0));
}

function longDate(day: string, month: string, year: string): number | undefined {
  if (year.length !== 4) return undefined;
  return midnight(twoDigits(year, 0) * 100 + twoDigits(year, 2), twoDigits(month, 0), twoDigits(day, 0));
}

/** UNIX time of 00:00 on a day that exists, since 1980; undefined otherwise. */
function midnight(year: number, month: number, day: number): number | undefined {
  const at = Date.UTC(year, month - 1, day);
  const back = new Date(at);
  return year >= 1980 && back.getUTCMonth() === month - 1 && back.getUTCDate() === day
    ? at / 1000
    : undefined;
}

/** UNIX time of a UTC: its date, or else the day that brings it within 12 h of `near`. */
export function unixTime({ timeOfDay, date }: Utc, near: number): number {
  if (date !== undefined) return date + timeOfDay;
  return Math.round((near - timeOfDay) / DAY) * DAY + timeOfDay;
}
