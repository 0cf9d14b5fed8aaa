import { FATHOM, FOOT } from '../quantities/units.ts';
import { decimal } from './decimal.ts';
import type { Decoder } from './decoder.ts';
import type { Observation } from './observation.ts';
import { DEPTH_LIMIT } from './readers.ts';

/**
 * Metres below the transducer, and the transducer's offset: to the waterline when positive, to the keel when negative. An offset
 * that cannot be read (`-1.-1` has been seen) is dropped: the depth beside it is measured, and worth having.
 */
const DPT: Decoder = {
  id: 'DPT',
  least: 2,
  most: 3,
  read(fields, out) {
    const depth = fields.number(0, 0, DEPTH_LIMIT, 'depth');
    const offset = decimal(fields.text, fields.start(1), fields.end(1));
    fields.number(2, 0, Number.MAX_VALUE, 'range');
    if (depth === undefined) return;
    const sounding: Observation = { kind: 'depth', depth, reference: 'transducer' };
    if (offset !== undefined) sounding.offset = offset;
    out.push(sounding);
  },
};

/** `feet,f,metres,M,fathoms,F`: the same depth rounded three times, or only some of the three. */
function threeUnits(id: string, reference: 'transducer' | 'keel' | 'surface'): Decoder {
  return {
    id,
    least: 6,
    most: 6,
    read(fields, out) {
      const feet = fields.measure(0, 'f', 0, DEPTH_LIMIT / FOOT, 'depth');
      const metres = fields.measure(2, 'M', 0, DEPTH_LIMIT, 'depth');
      const fathoms = fields.measure(4, 'F', 0, DEPTH_LIMIT / FATHOM, 'depth');
      const depth =
        metres ??
        (feet === undefined ? undefined : feet * FOOT) ??
        (fathoms === undefined ? undefined : fathoms * FATHOM);
      if (depth !== undefined) out.push({ kind: 'depth', depth, reference });
    },
  };
}

export const depthDecoders: Decoder[] = [
  DPT,
  threeUnits('DBT', 'transducer'),
  threeUnits('DBK', 'keel'),
  threeUnits('DBS', 'surface'),
];
