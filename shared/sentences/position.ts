import type { Decoder } from './decoder.ts';
import { type Fields, LONGEST_POSITION } from './fields.ts';
import { sayFix } from './fix.ts';
import { isMeasured, verdictOfModes, verdictOfQuality, verdictOfStatus } from './mode.ts';
import { sayMotion } from './motion.ts';
import type { PositionObservation } from './observation.ts';
import { bearing, knots } from './readers.ts';
import { sayTime, shortDate, timeOfDay } from './time.ts';

const HEIGHT_LIMIT = 100_000;

/** Number of satellites and dilution of precision, in fields `i` and `i + 1`, added to the position when there is one. */
function readSatellites(fields: Fields, i: number, position: PositionObservation | undefined): void {
  const satellites = fields.whole(i, 0, 999, 'number of satellites');
  const hdop = fields.number(i + 1, 0, 999, 'HDOP');
  if (position === undefined) return;
  if (satellites !== undefined) position.satellites = satellites;
  if (hdop !== undefined) position.hdop = hdop;
}

/** Fix time, position and quality. The last field, the station of the corrections, is left out by some AIS units. */
const GGA: Decoder = {
  id: 'GGA',
  least: 13,
  most: 14,
  longest: LONGEST_POSITION,
  read(fields, out) {
    const time = timeOfDay(fields, 0);
    sayTime(out, time, undefined);
    const position = sayFix(fields, 1, verdictOfQuality(fields, 5), time, out);
    readSatellites(fields, 6, position);
    fields.measure(8, 'M', -HEIGHT_LIMIT, HEIGHT_LIMIT, 'altitude');
    fields.measure(10, 'M', -HEIGHT_LIMIT, HEIGHT_LIMIT, 'height of the geoid');
    fields.number(12, 0, Number.MAX_VALUE, 'age of the corrections');
  },
};

/** Fix of several satellite systems. */
const GNS: Decoder = {
  id: 'GNS',
  least: 12,
  most: 13,
  longest: LONGEST_POSITION,
  read(fields, out) {
    const time = timeOfDay(fields, 0);
    sayTime(out, time, undefined);
    const position = sayFix(fields, 1, verdictOfModes(fields, 5), time, out);
    readSatellites(fields, 6, position);
    fields.number(8, -HEIGHT_LIMIT, HEIGHT_LIMIT, 'altitude');
    fields.number(9, -HEIGHT_LIMIT, HEIGHT_LIMIT, 'height of the geoid');
    fields.number(10, 0, Number.MAX_VALUE, 'age of the corrections');
  },
};

/** Position and time. Units older than NMEA 2.0 send the position alone; nothing vouches for it, so it counts as estimated. */
const GLL: Decoder = {
  id: 'GLL',
  least: 4,
  most: 7,
  longest: LONGEST_POSITION,
  read(fields, out) {
    if (fields.count === 5 && !fields.blank(4)) fields.fail('has a time and no status');
    const time = timeOfDay(fields, 4);
    sayTime(out, time, undefined);
    const verdict = fields.count < 6 ? 'estimated' : verdictOfStatus(fields, 5, 6);
    sayFix(fields, 0, verdict, time, out);
  },
};

/**
 * Position, motion, date and variation in one. The navigational status of version 4.10, field 12, is not read: receivers with a
 * good fix send V in it. Motion comes from measured fixes only; a reckoned speed has no way to say that it is one.
 */
const RMC: Decoder = {
  id: 'RMC',
  least: 11,
  most: 13,
  longest: LONGEST_POSITION,
  read(fields, out) {
    const time = timeOfDay(fields, 0);
    sayTime(out, time, shortDate(fields, 8));
    const variationSideLeftOut = fields.count === 11 && fields.blank(9) && isModeNotSide(fields, 10);
    const verdict = verdictOfStatus(fields, 1, variationSideLeftOut ? 10 : 11);
    const position = sayFix(fields, 2, verdict, time, out);
    const sog = knots(fields, 6, 'speed over the ground');
    const cog = bearing(fields, 7, 'course over the ground');
    const variation = variationSideLeftOut ? undefined : fields.sided(9, 'EW', 180, 'variation');
    if (position === undefined) return;
    if (isMeasured(position.quality)) sayMotion(out, sog, cog, undefined);
    if (variation !== undefined) out.push({ kind: 'variation', variation });
  },
};

/** An AIS unit (gpsd's saab-r4.log) leaves out the side of the blank variation, so that the mode stands in its place. */
function isModeNotSide(fields: Fields, i: number): boolean {
  const letter = fields.raw(i);
  return letter !== '' && letter !== 'E' && letter !== 'W';
}

export const positionDecoders: Decoder[] = [GGA, GNS, GLL, RMC];
