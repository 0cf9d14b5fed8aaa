import { KNOT } from '../quantities/units.ts';
import type { Decoder } from './decoder.ts';
import type { Fields } from './fields.ts';
import type { Observation } from './observation.ts';
import { bearingOf, knots, knotsOrKmh } from './readers.ts';

const A = 'A'.charCodeAt(0);
const NAUTICAL_MILE = 1852;
/** Nautical miles; a log that counts further is a damaged number. */
const LOG_LIMIT = 1e7;
/** m/s; the strongest tidal streams run at about 11 (Saltstraumen, 22 kn) [from memory]. */
const STREAM_LIMIT = 20;

/** Heading and speed through the water; there is no status, so blank is the only way to say "unknown". */
const VHW: Decoder = {
  id: 'VHW',
  least: 8,
  most: 8,
  read(fields, out) {
    const heading = bearingOf(fields, 0, 'T', 'heading');
    const headingMagnetic = bearingOf(fields, 2, 'M', 'magnetic heading');
    const ahead = knotsOrKmh(fields, 4, 'speed through the water');
    if (heading !== undefined) out.push({ kind: 'heading', heading });
    if (headingMagnetic !== undefined)
      out.push({ kind: 'heading-magnetic', heading: headingMagnetic, deviationApplied: true });
    if (ahead !== undefined) out.push({ kind: 'water-speed', ahead });
  },
};

/** Speeds ahead and to starboard, knots, through the water and over the ground, each with its own status. The stern's are not read. */
const VBW: Decoder = {
  id: 'VBW',
  least: 6,
  most: 10,
  read(fields, out) {
    readPart(fields, 0, 'water-speed', out);
    readPart(fields, 3, 'ground-speed', out);
  },
};

function readPart(fields: Fields, i: number, kind: 'water-speed' | 'ground-speed', out: Observation[]): void {
  const ahead = knots(fields, i, 'speed ahead', true);
  const athwart = knots(fields, i + 1, 'speed athwart', true);
  const status = fields.letter(i + 2, 'AV', 'status');
  if (status !== A || ahead === undefined) return;
  out.push(athwart === undefined ? { kind, ahead } : { kind, ahead, athwart });
}

/** Set, the direction the stream runs towards [from memory], and drift. */
const VDR: Decoder = {
  id: 'VDR',
  least: 6,
  most: 6,
  read(fields, out) {
    const set = bearingOf(fields, 0, 'T', 'set');
    const setMagnetic = bearingOf(fields, 2, 'M', 'magnetic set');
    const drift = fields.measure(4, 'N', 0, STREAM_LIMIT / KNOT, 'drift');
    if (drift === undefined) return;
    const stream: Observation = { kind: 'stream', drift: drift * KNOT };
    if (set !== undefined) stream.set = set;
    if (setMagnetic !== undefined) stream.setMagnetic = setMagnetic;
    out.push(stream);
  },
};

/** Miles logged through the water, in all and since the last reset; since 4.00 also over the ground, which is not read. */
const VLW: Decoder = {
  id: 'VLW',
  least: 4,
  most: 8,
  read(fields, out) {
    const total = fields.measure(0, 'N', 0, LOG_LIMIT, 'distance logged');
    const sinceReset = fields.measure(2, 'N', 0, LOG_LIMIT, 'distance since reset');
    if (total === undefined && sinceReset === undefined) return;
    const log: Observation = { kind: 'distance-log' };
    if (total !== undefined) log.total = total * NAUTICAL_MILE;
    if (sinceReset !== undefined) log.sinceReset = sinceReset * NAUTICAL_MILE;
    out.push(log);
  },
};

const MTW: Decoder = {
  id: 'MTW',
  least: 2,
  most: 2,
  read(fields, out) {
    const celsius = fields.measure(0, 'C', -50, 100, 'water temperature');
    if (celsius !== undefined) out.push({ kind: 'water-temperature', celsius });
  },
};

export const waterDecoders: Decoder[] = [VHW, VBW, VDR, VLW, MTW];
