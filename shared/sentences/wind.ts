import { direction, signed } from '../quantities/angle.ts';
import { KILOMETRE_PER_HOUR, KNOT, MILE_PER_HOUR } from '../quantities/units.ts';
import type { Decoder } from './decoder.ts';
import type { Fields } from './fields.ts';
import type { Observation } from './observation.ts';
import { bearingOf } from './readers.ts';

/** m/s; the strongest gust measured is 113.2 (Barrow Island 1996, WMO) [from memory]. */
const WIND_LIMIT = 120;

const letter = (text: string): number => text.charCodeAt(0);
const A = letter('A');
const L = letter('L');
const R = letter('R');

/** m/s in one of each unit that MWV may carry (Furuno DS-60 p. 79; S from gpsd's driver source). */
const UNITS: ReadonlyMap<number, number> = new Map([
  [letter('K'), KILOMETRE_PER_HOUR],
  [letter('M'), 1],
  [letter('N'), KNOT],
  [letter('S'), MILE_PER_HOUR],
]);

/**
 * Wind off the bow, clockwise, for both references: R is relative (apparent), T is theoretical, "true" as the instrument
 * reckons it, and not off north.
 */
const MWV: Decoder = {
  id: 'MWV',
  least: 5,
  most: 5,
  read(fields, out) {
    const angle = fields.number(0, 0, 360, 'wind angle');
    const reference = fields.letter(1, 'RT', 'reference of the wind angle');
    const unit = UNITS.get(fields.letter(3, 'KMNS', 'unit of the wind speed'));
    const speed = fields.number(2, 0, WIND_LIMIT / (unit ?? 1), 'wind speed');
    const status = fields.letter(4, 'AV', 'status');
    if (status !== A || angle === undefined || speed === undefined) return;
    if (unit === undefined) fields.fail('wind speed without its unit');
    else if (reference === 0) fields.fail('wind angle without R or T');
    else sayWind(out, reference === R, signed(angle), speed * unit);
  },
};

function sayWind(out: Observation[], apparent: boolean, angle: number, speed: number): void {
  out.push({ kind: apparent ? 'wind-apparent' : 'wind-theoretical', angle, speed });
}

/** Direction the wind over the ground blows from, true and magnetic, and its speed in knots and m/s. The knots are the finer. */
const MWD: Decoder = {
  id: 'MWD',
  least: 8,
  most: 8,
  read(fields, out) {
    const from = bearingOf(fields, 0, 'T', 'wind direction');
    const fromMagnetic = bearingOf(fields, 2, 'M', 'magnetic wind direction');
    const inKnots = fields.measure(4, 'N', 0, WIND_LIMIT / KNOT, 'wind speed');
    const inMetres = fields.measure(6, 'M', 0, WIND_LIMIT, 'wind speed');
    const speed = inKnots === undefined ? inMetres : inKnots * KNOT;
    if (from === undefined && fromMagnetic === undefined && speed === undefined) return;
    const wind: Observation = { kind: 'wind-ground' };
    if (from !== undefined) wind.from = from;
    if (fromMagnetic !== undefined) wind.fromMagnetic = fromMagnetic;
    if (speed !== undefined) wind.speed = speed;
    out.push(wind);
  },
};

/** Old form of MWV: 0–180 with L or R of the bow, and the speed in three units, of which the first one there is read. */
function readSideWind(fields: Fields, apparent: boolean, out: Observation[]): void {
  const angle = fields.number(0, 0, 180, 'wind angle');
  const side = fields.letter(1, 'LR', 'side of the wind angle');
  const inKnots = fields.measure(2, 'N', 0, WIND_LIMIT / KNOT, 'wind speed');
  const inMetres = fields.measure(4, 'M', 0, WIND_LIMIT, 'wind speed');
  const inKmh = fields.measure(6, 'K', 0, WIND_LIMIT / KILOMETRE_PER_HOUR, 'wind speed');
  if (angle === undefined) return;
  if (side === 0) {
    fields.fail('wind angle without L or R');
    return;
  }
  let speed = inMetres;
  if (inKnots !== undefined) speed = inKnots * KNOT;
  else if (speed === undefined && inKmh !== undefined) speed = inKmh * KILOMETRE_PER_HOUR;
  if (speed === undefined) return;
  sayWind(out, apparent, signed(side === L ? direction(-angle) : angle), speed);
}

const VWR: Decoder = {
  id: 'VWR',
  least: 8,
  most: 8,
  read: (fields, out) => readSideWind(fields, true, out),
};

/** The same for the wind over the water. */
const VWT: Decoder = {
  id: 'VWT',
  least: 8,
  most: 8,
  read: (fields, out) => readSideWind(fields, false, out),
};

export const windDecoders: Decoder[] = [MWV, MWD, VWR, VWT];
