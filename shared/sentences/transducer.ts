import type { Decoder } from './decoder.ts';
import { LONGEST_SENTENCE } from './fields.ts';
import type { Observation } from './observation.ts';

/** Any number of `type,value,unit,name`. What type and name mean is the instrument's own; a blank value is told as unknown. */
const XDR: Decoder = {
  id: 'XDR',
  least: 4,
  most: LONGEST_SENTENCE,
  read(fields, out) {
    const full = fields.count - (fields.count % 4);
    if (!fields.blankFrom(full)) fields.fail(`has ${fields.count} fields, not a multiple of 4`);
    for (let i = 0; i < full; i += 4) {
      const value = fields.number(i + 1, -Number.MAX_VALUE, Number.MAX_VALUE, 'value');
      const reading: Observation = {
        kind: 'transducer',
        type: fields.words(i),
        unit: fields.words(i + 2),
        name: fields.words(i + 3),
      };
      if (value !== undefined) reading.value = value;
      if (reading.type !== '' || value !== undefined || reading.name !== '') out.push(reading);
    }
  },
};

export const transducerDecoders: Decoder[] = [XDR];
