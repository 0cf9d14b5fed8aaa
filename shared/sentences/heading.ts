import { direction } from '../quantities/angle.ts';
import type { Decoder } from './decoder.ts';
import { bearing, bearingOf } from './readers.ts';

const A = 'A'.charCodeAt(0);
const E = 'E'.charCodeAt(0);
/** Degrees a minute; 20 turns a minute is a damaged number. */
const TURN_LIMIT = 7200;

const HDT: Decoder = {
  id: 'HDT',
  least: 2,
  most: 2,
  read(fields, out) {
    const heading = bearingOf(fields, 0, 'T', 'heading');
    if (heading !== undefined) out.push({ kind: 'heading', heading });
  },
};

/** Compass heading, deviation and variation, easterly positive (Furuno FR-1500 manual p. 8-6): magnetic = compass + deviation. */
const HDG: Decoder = {
  id: 'HDG',
  least: 5,
  most: 5,
  read(fields, out) {
    const compass = bearing(fields, 0, 'heading');
    const deviation = fields.sided(1, 'EW', 180, 'deviation');
    const variation = fields.sided(3, 'EW', 180, 'variation');
    if (compass !== undefined) {
      const heading = direction(compass + (deviation ?? 0));
      out.push({ kind: 'heading-magnetic', heading, deviationApplied: deviation !== undefined });
    }
    if (variation !== undefined) out.push({ kind: 'variation', variation });
  },
};

const HDM: Decoder = {
  id: 'HDM',
  least: 2,
  most: 2,
  read(fields, out) {
    const heading = bearingOf(fields, 0, 'M', 'heading');
    if (heading !== undefined) out.push({ kind: 'heading-magnetic', heading, deviationApplied: true });
  },
};

/** True heading and mode: A autonomous and E estimated are headings; M manual, S simulated and V invalid are none. */
const THS: Decoder = {
  id: 'THS',
  least: 2,
  most: 2,
  read(fields, out) {
    const heading = bearing(fields, 0, 'heading');
    const mode = fields.letter(1, 'AEMSV', 'mode');
    if (heading !== undefined && (mode === A || mode === E)) out.push({ kind: 'heading', heading });
  },
};

/** Rate of turn in degrees a minute, minus when the bow goes to port (gpsd NMEA.adoc, Furuno DS-60 p. 79). */
const ROT: Decoder = {
  id: 'ROT',
  least: 2,
  most: 2,
  read(fields, out) {
    const rate = fields.number(0, -TURN_LIMIT, TURN_LIMIT, 'rate of turn');
    const status = fields.letter(1, 'AV', 'status');
    if (rate !== undefined && status === A) out.push({ kind: 'rate-of-turn', rate: rate / 60 });
  },
};

export const headingDecoders: Decoder[] = [HDT, HDG, HDM, THS, ROT];
