import type { Fields } from './fields.ts';
import type { Observation } from './observation.ts';

/** How one kind of sentence is read. */
export interface Decoder {
  /** The three letters after the talker. */
  id: string;
  /** Fewest and most fields. More are accepted when they are blank (some receivers end every sentence with a comma). */
  least: number;
  most: number;
  /** Most characters, `$` to checksum; LONGEST_SENTENCE when absent. */
  longest?: number;
  /** True for the sentences that begin with `!`. */
  encapsulated?: true;
  /** Adds to `out` what the sentence says; what it finds wrong it reports to `fields.fail`. */
  read(fields: Fields, out: Observation[]): void;
}
