import type { Observation } from './observation.ts';

export type Rejection = 'checksum' | 'malformed' | 'unknown';

/** Fields of a TAG block that hawse uses; `at` is the `c:` time in UNIX seconds (milliseconds are recognised). */
export interface Tag {
  at?: number;
  source?: string;
}

/** One sentence understood. `observations` may be empty: a known sentence that has nothing to say. */
export interface Sentence {
  ok: true;
  talker: string;
  /** Three-letter identifier, e.g. RMC. */
  id: string;
  observations: Observation[];
  tag?: Tag;
}

/** A line refused, and why, in words a person can act on. */
export interface Refused {
  ok: false;
  reason: Rejection;
  why: string;
  tag?: Tag;
}

export type Decoded = Sentence | Refused;

export interface DecodeOptions {
  /** True (the default of every input) refuses a sentence without checksum. */
  requireChecksum: boolean;
}
