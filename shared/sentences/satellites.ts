import type { Decoder } from './decoder.ts';
import type { Observation } from './observation.ts';
import { timeOfDay } from './time.ts';

const DIMENSIONS = [1, 2, 3] as const;

/** Dimensions of the fix (1 none, 2, 3), satellites used, and dilution; 4.10 adds the satellite system. */
const GSA: Decoder = {
  id: 'GSA',
  least: 17,
  most: 18,
  read(fields, out) {
    fields.letter(0, 'AM', 'selection');
    const fix = fields.whole(1, 1, 3, 'fix dimensions');
    for (let i = 2; i < 14; i++) fields.whole(i, 0, 999, 'satellite');
    fields.number(14, 0, 999, 'PDOP');
    const hdop = fields.number(15, 0, 999, 'HDOP');
    fields.number(16, 0, 999, 'VDOP');
    const dimensions = fix === undefined ? undefined : DIMENSIONS[fix - 1];
    if (dimensions === undefined && hdop === undefined) return;
    const dilution: Observation = { kind: 'dilution' };
    if (hdop !== undefined) dilution.hdop = hdop;
    if (dimensions !== undefined) dilution.dimensions = dimensions;
    out.push(dilution);
  },
};

/** `total,number,in view`, then four fields for each of up to four satellites; 4.10 adds the signal, which is not a satellite. */
const GSV: Decoder = {
  id: 'GSV',
  least: 3,
  most: 20,
  read(fields, out) {
    fields.whole(0, 1, 99, 'number of sentences');
    fields.whole(1, 1, 99, 'sentence number');
    const count = fields.whole(2, 0, 999, 'satellites in view');
    const satellites = Math.min(4, Math.floor((fields.count - 3) / 4));
    for (let i = 3; i < 3 + 4 * satellites; i++) fields.number(i, -90, 999, 'satellite');
    if (count !== undefined) out.push({ kind: 'satellites-in-view', count });
  },
};

/** Standard deviations of the fix, metres. */
const GST: Decoder = {
  id: 'GST',
  least: 8,
  most: 8,
  read(fields, out) {
    timeOfDay(fields, 0);
    for (const i of [1, 2, 3, 7]) fields.number(i, 0, 1e8, 'standard deviation');
    fields.number(4, -360, 360, 'orientation of the error ellipse');
    const latSigma = fields.number(5, 0, 1e8, 'standard deviation of the latitude');
    const lonSigma = fields.number(6, 0, 1e8, 'standard deviation of the longitude');
    if (latSigma === undefined && lonSigma === undefined) return;
    const accuracy: Observation = { kind: 'accuracy' };
    if (latSigma !== undefined) accuracy.latSigma = latSigma;
    if (lonSigma !== undefined) accuracy.lonSigma = lonSigma;
    out.push(accuracy);
  },
};

export const satelliteDecoders: Decoder[] = [GSA, GSV, GST];
