import { aisDecoders } from './ais.ts';
import { alertDecoders } from './alerts.ts';
import { BACKSLASH, BANG, COMMA, DOLLAR, SPACE } from './characters.ts';
import { checksum, checksumBefore, checksumDigits } from './checksum.ts';
import type { Decoded, DecodeOptions, Refused, Rejection, Tag } from './decoded.ts';
import type { Decoder } from './decoder.ts';
import { depthDecoders } from './depth.ts';
import { Fields, LONGEST_SENTENCE } from './fields.ts';
import { headingDecoders } from './heading.ts';
import { motionDecoders } from './motion.ts';
import type { Observation } from './observation.ts';
import { positionDecoders } from './position.ts';
import { satelliteDecoders } from './satellites.ts';
import { readTags } from './tag.ts';
import { timeDecoders } from './time.ts';
import { transducerDecoders } from './transducer.ts';
import { waterDecoders } from './water.ts';
import { windDecoders } from './wind.ts';

const P = 'P'.charCodeAt(0);
/** Characters of an address: two of the talker, three of the identifier; a maker's own has P and at least three. */
const ADDRESS_LENGTH = 5;
const SHORTEST_ADDRESS = 4;

/** Three characters as one number: the table needs no string for a look-up, and no sentence can name a member of Object. */
const keyOf = (text: string, at: number): number =>
  (text.charCodeAt(at) << 16) | (text.charCodeAt(at + 1) << 8) | text.charCodeAt(at + 2);

const DECODERS: ReadonlyMap<number, Decoder> = new Map(
  [
    ...positionDecoders,
    ...timeDecoders,
    ...motionDecoders,
    ...headingDecoders,
    ...windDecoders,
    ...depthDecoders,
    ...waterDecoders,
    ...transducerDecoders,
    ...satelliteDecoders,
    ...aisDecoders,
    ...alertDecoders,
  ].map((decoder) => [keyOf(decoder.id, 0), decoder]),
);

/** Identifiers of all sentences that `decode` understands. */
export const UNDERSTOOD: readonly string[] = [...DECODERS.values()].map((decoder) => decoder.id).sort();

const fields = new Fields();

/**
 * What one piece of a line (see `splitLine`) says, or why it is refused: `checksum` when the checksum is wrong or, where it is
 * required, missing; `malformed` when the sentence breaks its own rules; `unknown` when it is whole but not one that hawse reads.
 * Never throws. Sources of the formats: gpsd NMEA.adoc 2.23 and AIVDM.adoc, and the makers' manuals named beside the decoders.
 */
export function decode(piece: string, options: DecodeOptions): Decoded {
  let from = 0;
  let tag: Tag | undefined;
  if (piece.charCodeAt(0) === BACKSLASH) {
    const tags = readTags(piece, options.requireChecksum);
    if (!tags.ok) return refuse(tags.reason, tags.why, undefined);
    tag = tags.tag;
    from = tags.next;
  }
  let end = piece.length;
  while (end > from && piece.charCodeAt(end - 1) <= SPACE) end--;
  const first = piece.charCodeAt(from);
  if (from >= end || (first !== DOLLAR && first !== BANG))
    return refuse('malformed', 'does not begin with $ or !', tag);
  const length = end - from;
  if (length > LONGEST_SENTENCE)
    return refuse('malformed', `has ${length} characters, more than ${LONGEST_SENTENCE}`, tag);

  const sent = checksumBefore(piece, end);
  let to = end;
  if (sent >= 0) {
    to = end - 3;
    const sum = checksum(piece, from + 1, to);
    if (sum !== sent)
      return refuse(
        'checksum',
        `has checksum ${checksumDigits(sent)}, its characters give ${checksumDigits(sum)}`,
        tag,
      );
  } else if (options.requireChecksum || piece.indexOf('*', from) >= 0) {
    return refuse('checksum', 'does not end with a checksum *hh', tag);
  }

  let comma = from + 1;
  while (comma < to && piece.charCodeAt(comma) !== COMMA) {
    const c = piece.charCodeAt(comma);
    if (c <= SPACE || c >= 0x7f)
      return refuse('malformed', 'has an address that is not of plain letters', tag);
    comma++;
  }
  const addressLength = comma - from - 1;
  if (addressLength < SHORTEST_ADDRESS)
    return refuse('malformed', 'has an address of fewer than four characters', tag);
  const isStandard = addressLength === ADDRESS_LENGTH && piece.charCodeAt(from + 1) !== P;
  const decoder = isStandard ? DECODERS.get(keyOf(piece, from + 3)) : undefined;
  if (decoder === undefined)
    return refuse('unknown', `${piece.slice(from + 1, comma)} is not a sentence that hawse reads`, tag);

  const fault = frameFault(decoder, first, length);
  if (fault !== undefined) return refuse('malformed', `${decoder.id} ${fault}`, tag);
  fields.load(piece, comma + 1, to);
  if (fields.count < decoder.least)
    return refuse('malformed', `${decoder.id} has ${fields.count} fields, not ${decoder.least}`, tag);
  if (fields.count > decoder.most && !fields.blankFrom(decoder.most))
    return refuse('malformed', `${decoder.id} has ${fields.count} fields, not ${decoder.most}`, tag);
  const observations: Observation[] = [];
  decoder.read(fields, observations);
  if (fields.fault !== undefined) return refuse('malformed', `${decoder.id}: ${fields.fault}`, tag);

  const talker = piece.slice(from + 1, from + 3);
  return tag === undefined
    ? { ok: true, talker, id: decoder.id, observations }
    : { ok: true, talker, id: decoder.id, observations, tag };
}

/** What is wrong with the sentence as a whole, before its fields are looked at. */
function frameFault(decoder: Decoder, first: number, length: number): string | undefined {
  if (decoder.encapsulated === true ? first !== BANG : first !== DOLLAR)
    return `begins with ${String.fromCharCode(first)}`;
  const longest = decoder.longest ?? LONGEST_SENTENCE;
  return length > longest ? `has ${length} characters, more than ${longest}` : undefined;
}

function refuse(reason: Rejection, why: string, tag: Tag | undefined): Refused {
  return tag === undefined ? { ok: false, reason, why } : { ok: false, reason, why, tag };
}
