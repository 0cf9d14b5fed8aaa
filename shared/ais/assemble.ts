import type { AisFragment } from '../sentences/observation.ts';

/** Parts of messages that wait for the others: plain data. */
export type Parts = {
  source: string;
  key: string;
  at: number;
  payloads: (string | null)[];
  /** Of the last part: only that one is filled up. */
  fillBits: number;
}[];

/** Parts of one message follow each other at once; what waits longer belongs to a message that was lost on the way. */
const LONGEST_WAIT = 4;
/** Sequence numbers are one digit and channels are two: more than this cannot wait on one input in earnest. */
const MOST_WAITING = 40;

export interface Whole {
  payload: string;
  fillBits: number;
}

/**
 * Takes one part heard at `at` (UNIX seconds) on input `source`; returns the message when it is whole. Parts belong together by
 * input, sequence number, channel and total (gpsd AIVDM.adoc): of several with the same number the later one counts.
 */
export function assemble(parts: Parts, part: AisFragment, source: string, at: number): Whole | undefined {
  const { total, number, payload, fillBits } = part;
  if (total === 1) return { payload, fillBits };
  if (number > total) return undefined;
  for (let i = parts.length - 1; i >= 0; i--) if (at - parts[i]!.at > LONGEST_WAIT) parts.splice(i, 1);
  const key = `${part.own ? 'own' : ''}${part.channel}/${part.sequence ?? ''}/${total}`;
  let index = parts.findIndex((waiting) => waiting.source === source && waiting.key === key);
  if (index < 0) {
    if (parts.length >= MOST_WAITING) parts.shift();
    index = parts.push({ source, key, at, payloads: new Array(total).fill(null), fillBits: 0 }) - 1;
  }
  const waiting = parts[index]!;
  waiting.payloads[number - 1] = payload;
  if (number === total) waiting.fillBits = fillBits;
  if (waiting.payloads.includes(null)) return undefined;
  parts.splice(index, 1);
  return { payload: waiting.payloads.join(''), fillBits: waiting.fillBits };
}
