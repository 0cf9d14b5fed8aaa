import type { Decoder } from './decoder.ts';
import type { Fields } from './fields.ts';
import type { AisFragment, Observation } from './observation.ts';

/** True when every character is one of the 64 that carry six bits: 0–9 : ; < = > ? @ A–W ` a–w (gpsd AIVDM.adoc). */
function isArmoured(fields: Fields, i: number): boolean {
  const to = fields.end(i);
  for (let k = fields.start(i); k < to; k++) {
    const c = fields.text.charCodeAt(k);
    if (c < 0x30 || c > 0x77 || (c > 0x57 && c < 0x60)) return false;
  }
  return true;
}

/** `total,number,sequence,channel,payload,fill bits`: one radio message, or a part of one. The payload is not decoded. */
function fragment(id: string, own: boolean): Decoder {
  return {
    id,
    least: 6,
    most: 6,
    encapsulated: true,
    read(fields: Fields, out: Observation[]) {
      const total = fields.whole(0, 1, 9, 'number of parts');
      const number = fields.whole(1, 1, total ?? 9, 'part');
      const sequence = fields.whole(2, 0, 9, 'sequence number');
      const fillBits = fields.whole(5, 0, 5, 'fill bits');
      if (!isArmoured(fields, 4)) fields.fail('payload has characters that AIS does not use');
      if (total === undefined || number === undefined || fillBits === undefined) {
        fields.fail('parts or fill bits are blank');
        return;
      }
      const part: AisFragment = {
        kind: 'ais-fragment',
        own,
        total,
        number,
        channel: fields.raw(3),
        payload: fields.raw(4),
        fillBits,
      };
      if (sequence !== undefined) part.sequence = sequence;
      out.push(part);
    },
  };
}

export const aisDecoders: Decoder[] = [fragment('VDM', false), fragment('VDO', true)];
