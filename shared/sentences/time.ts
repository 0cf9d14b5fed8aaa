import { isDigit, POINT, ZERO } from './characters.ts';
import { POWER_OF_TEN } from './decimal.ts';
import type { Decoder } from './decoder.ts';
import type { Fields } from './fields.ts';
import type { Observation } from './observation.ts';

/** Digits of a second that are read: more would not be exact beside 86 400 s. */
const FRACTION_DIGITS = 9;

function twoDigits(text: string, at: number): number {
  const high = text.charCodeAt(at);
  const low = text.charCodeAt(at + 1);
  return isDigit(high) && isDigit(low) ? (high - ZERO) * 10 + (low - ZERO) : Number.NaN;
}

/** Seconds since 00:00 UTC from `hhmmss[.s…]`; 23:59:60, a leap second, is 86 400. Anything else that is not blank is a fault. */
export function timeOfDay(fields: Fields, i: number): number | undefined {
  const { text } = fields;
  const from = fields.start(i);
  const to = fields.end(i);
  if (from === to) return undefined;
  const wrong = () => fields.fail(`time "${fields.raw(i)}" is not hhmmss`);
  if (to - from < 6) return wrong();
  const hour = twoDigits(text, from);
  const minute = twoDigits(text, from + 2);
  const second = twoDigits(text, from + 4);
  const leap = second === 60 && minute === 59 && hour === 23;
  if (!(hour < 24 && minute < 60 && (second < 60 || leap))) return wrong();
  let fraction = 0;
  if (to > from + 6) {
    if (text.charCodeAt(from + 6) !== POINT) return wrong();
    let digits = 0;
    for (let k = from + 7; k < to; k++) {
      const c = text.charCodeAt(k);
      if (!isDigit(c)) return wrong();
      if (digits < FRACTION_DIGITS) {
        fraction = fraction * 10 + (c - ZERO);
        digits++;
      }
    }
    fraction /= POWER_OF_TEN[digits]!;
  }
  return hour * 3600 + minute * 60 + second + fraction;
}

/** Satellite time began in 1980: an earlier year is a receiver that does not know the date, and a two-digit year turns there. */
const FIRST_YEAR = 1980;

/**
 * UNIX time of 00:00 UTC of a date of the Gregorian calendar since 1980; undefined for a date that does not exist (month 13,
 * 31 April) or lies before, and when a part is NaN.
 */
function unixDate(year: number, month: number, day: number): number | undefined {
  const at = Date.UTC(year, month - 1, day);
  const back = new Date(at);
  const exists = year >= FIRST_YEAR && back.getUTCMonth() === month - 1 && back.getUTCDate() === day;
  return exists ? at / 1000 : undefined;
}

/**
 * UNIX time of the day in `ddmmyy`. A date that cannot be (`2208-1`, sent by a receiver after the week rollover of 2019) is
 * unknown and no fault: the time and position beside it are right.
 */
export function shortDate(fields: Fields, i: number): number | undefined {
  const from = fields.start(i);
  if (fields.end(i) - from !== 6) return undefined;
  const year = twoDigits(fields.text, from + 4);
  return unixDate(
    year < FIRST_YEAR - 1900 ? 2000 + year : 1900 + year,
    twoDigits(fields.text, from + 2),
    twoDigits(fields.text, from),
  );
}

/** Tells the time, when there is one. */
export function sayTime(out: Observation[], time: number | undefined, date: number | undefined): void {
  if (time === undefined) return;
  out.push(date === undefined ? { kind: 'time', timeOfDay: time } : { kind: 'time', timeOfDay: time, date });
}

/** UTC and date. The local zone in the last two fields is not applied: the time sent is UTC (gpsd NMEA.adoc). */
const ZDA: Decoder = {
  id: 'ZDA',
  least: 4,
  most: 6,
  read(fields, out) {
    const time = timeOfDay(fields, 0);
    const year = digitsOf(fields, 3, 4);
    sayTime(out, time, unixDate(year, digitsOf(fields, 2, 2), digitsOf(fields, 1, 2)));
    fields.whole(4, -13, 13, 'local zone hours');
    fields.whole(5, -59, 59, 'local zone minutes');
  },
};

/** A field of exactly `digits` digits as a number, NaN otherwise (and no date exists with it). */
function digitsOf(fields: Fields, i: number, digits: number): number {
  const from = fields.start(i);
  if (fields.end(i) - from !== digits) return Number.NaN;
  let value = 0;
  for (let k = from; k < from + digits; k += 2) value = value * 100 + twoDigits(fields.text, k);
  return value;
}

export const timeDecoders: Decoder[] = [ZDA];
