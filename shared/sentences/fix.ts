import { isDigit, POINT, ZERO } from './characters.ts';
import { POWER_OF_TEN } from './decimal.ts';
import type { Fields } from './fields.ts';
import type { FixQuality, NoPositionObservation, Observation, PositionObservation } from './observation.ts';

/** What a sentence says of its own fix: how good it is, or why there is none. */
export type Verdict = FixQuality | Exclude<NoPositionObservation['reason'], 'zero'>;

/** Metres north-south in one minute of latitude, by the definition of the nautical mile. */
const MINUTE = 1852;
/** Digits of a minute that are read; 10^-9 of a minute is 2 µm. */
const FRACTION_DIGITS = 9;

interface Axis {
  what: string;
  /** Digits before the point, leading zeros included: ddmm or dddmm. */
  digits: number;
  limit: number;
  sides: string;
}
const LATITUDE: Axis = { what: 'latitude', digits: 4, limit: 90, sides: 'NS' };
const LONGITUDE: Axis = { what: 'longitude', digits: 5, limit: 180, sides: 'EW' };

/**
 * Degrees from `ddmm[.m…]` or `dddmm[.m…]` with its hemisphere in the next field. The number of digits before the point is
 * checked since characters lost in pairs can leave the checksum right; only an all-zero field may be shorter, as some receivers
 * send `0.000` before their first fix.
 */
function coordinate(fields: Fields, i: number, axis: Axis): number | undefined {
  const { text } = fields;
  const { what } = axis;
  const from = fields.start(i);
  const to = fields.end(i);
  const side = fields.letter(i + 1, axis.sides, 'hemisphere', what);
  if (from === to) return undefined;
  if (side === 0) return fields.fail(`${what} without its hemisphere`);
  let k = from;
  let whole = 0;
  for (let c = text.charCodeAt(k); k < to && isDigit(c); c = text.charCodeAt(++k))
    whole = whole * 10 + (c - ZERO);
  const digits = k - from;
  let fraction = 0;
  let decimals = 0;
  if (k < to && text.charCodeAt(k) === POINT) {
    for (k++; k < to; k++) {
      const c = text.charCodeAt(k);
      if (!isDigit(c)) break;
      if (decimals < FRACTION_DIGITS) {
        fraction = fraction * 10 + (c - ZERO);
        decimals++;
      }
    }
  }
  if (k < to || digits === 0) return fields.fail(`${what} "${fields.raw(i)}" is not a position`);
  if (whole === 0 && fraction === 0) return 0;
  if (digits !== axis.digits)
    return fields.fail(`${what} "${fields.raw(i)}" has not ${axis.digits} digits before the point`);
  const minutes = (whole % 100) + fraction / POWER_OF_TEN[decimals]!;
  const value = Math.floor(whole / 100) + minutes / 60;
  if (minutes >= 60) return fields.fail(`${what} "${fields.raw(i)}" has 60 minutes or more`);
  if (value > axis.limit) return fields.fail(`${what} "${fields.raw(i)}" is beyond ${axis.limit} degrees`);
  return side === axis.sides.charCodeAt(1) ? -value : value;
}

/** Digits behind the point. */
function decimals(fields: Fields, i: number): number {
  const from = fields.start(i);
  const to = fields.end(i);
  for (let k = to - 1; k >= from; k--) if (fields.text.charCodeAt(k) === POINT) return to - 1 - k;
  return 0;
}

/**
 * Reads latitude, N/S, longitude, E/W from field `first` on and tells a position or why there is none; the position is also
 * returned, for what else the sentence knows of it. Where the receiver says that it has no fix, the fields are not even read:
 * receivers leave stale positions, zeros or 36000.0000 in them.
 */
export function sayFix(
  fields: Fields,
  first: number,
  verdict: Verdict,
  time: number | undefined,
  out: Observation[],
): PositionObservation | undefined {
  switch (verdict) {
    case 'no-fix':
    case 'simulated':
    case 'manual':
    case 'blank':
      return sayNone(out, verdict, time);
  }
  const lat = coordinate(fields, first, LATITUDE);
  const lon = coordinate(fields, first + 2, LONGITUDE);
  if (lat === undefined || lon === undefined) {
    if (lat !== lon) return fields.fail('half a position');
    return sayNone(out, 'blank', time);
  }
  if (lat === 0 && lon === 0) return sayNone(out, 'zero', time);
  const coarser = Math.min(decimals(fields, first), decimals(fields, first + 2));
  const position: PositionObservation = {
    kind: 'position',
    lat,
    lon,
    quality: verdict,
    resolution: MINUTE / 10 ** coarser,
  };
  if (time !== undefined) position.timeOfDay = time;
  out.push(position);
  return position;
}

function sayNone(
  out: Observation[],
  reason: NoPositionObservation['reason'],
  time: number | undefined,
): undefined {
  out.push(
    time === undefined ? { kind: 'no-position', reason } : { kind: 'no-position', reason, timeOfDay: time },
  );
  return undefined;
}
