import { isDigit, POINT, ZERO } from './characters.ts';
import { POWER_OF_TEN } from './decimal.ts';
import type { Decoder } from './decoder.ts';
import type { Fields } from './fields.ts';
import type { Observation } from './observation.ts';

const DAY = 86_400;
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

/**
 * UNIX time of 00:00 UTC of a date of the Gregorian calendar; undefined for a date that does not exist (month 13, 31 April).
 * Days from civil: H. Hinnant, "chrono-compatible low-level date algorithms".
 */
export function unixDate(year: number, month: number, day: number): number | undefined {
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  const longest =
    month === 2 ? (leap ? 29 : 28) : month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
  if (!(month >= 1 && month <= 12 && day >= 1 && day <= longest)) return undefined;
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return (era * 146_097 + dayOfEra - 719_468) * DAY;
}

/** The century of a two-digit year: GPS time began in 1980. */
const PIVOT = 80;

/**
 * UNIX time of the day in `ddmmyy`. A date that cannot be (`2208-1`, sent by a receiver after the week rollover of 2019) is
 * unknown and no fault: the time and position beside it are right.
 */
export function shortDate(fields: Fields, i: number): number | undefined {
  const from = fields.start(i);
  if (fields.end(i) - from !== 6) return undefined;
  const year = twoDigits(fields.text, from + 4);
  return unixDate(
    year < PIVOT ? 2000 + year : 1900 + year,
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
    const year = decimalDigits(fields, 3, 4);
    sayTime(out, time, unixDate(year, decimalDigits(fields, 2, 2), decimalDigits(fields, 1, 2)));
    fields.whole(4, -13, 13, 'local zone hours');
    fields.whole(5, -59, 59, 'local zone minutes');
  },
};

/** A field of exactly `digits` digits as a number, NaN otherwise (and no date exists with it). */
function decimalDigits(fields: Fields, i: number, digits: number): number {
  const from = fields.start(i);
  if (fields.end(i) - from !== digits) return Number.NaN;
  let value = 0;
  for (let k = from; k < from + digits; k += 2) value = value * 100 + twoDigits(fields.text, k);
  return value;
}

export const timeDecoders: Decoder[] = [ZDA];
