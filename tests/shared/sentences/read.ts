import { withChecksum } from '../../../shared/sentences/checksum.ts';
import { decode } from '../../../shared/sentences/decode.ts';
import type { Refused, Sentence } from '../../../shared/sentences/decoded.ts';
import type { Observation } from '../../../shared/sentences/observation.ts';

export type Of<K extends Observation['kind']> = Extract<Observation, { kind: K }>;

/** Decodes a sentence that must be accepted. */
export function accepted(sentence: string): Sentence {
  const decoded = decode(sentence, { requireChecksum: true });
  if (!decoded.ok) throw new Error(`${sentence} was refused: ${decoded.reason}, ${decoded.why}`);
  return decoded;
}

/** Decodes a sentence that must be refused. */
export function refused(sentence: string): Refused {
  const decoded = decode(sentence, { requireChecksum: true });
  if (decoded.ok) throw new Error(`${sentence} was accepted: ${JSON.stringify(decoded.observations)}`);
  return decoded;
}

/** What a sentence says, given without its start character and checksum. */
export const say = (body: string): Observation[] => accepted(withChecksum(body)).observations;

/** Why a sentence is refused, given without its start character and checksum. */
export const refuse = (body: string): Refused => refused(withChecksum(body));

/** The only observation of a kind, undefined when there is none. */
export function only<K extends Observation['kind']>(observations: Observation[], kind: K): Of<K> | undefined {
  const found = observations.filter((observation): observation is Of<K> => observation.kind === kind);
  if (found.length > 1) throw new Error(`${found.length} observations of ${kind}`);
  return found[0];
}

/** Every number anywhere in a value that is NaN or infinite, with the path to it. */
export function badNumbers(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} = ${value}`];
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, inner]) => badNumbers(inner, `${path}.${key}`));
}
