import type { Sentence } from '../sentences/decoded.ts';
import type { NoPositionObservation, Observation } from '../sentences/observation.ts';
import { ACCURACY_LIMIT } from './limits.ts';

/** What a receiver (a talker on an input) says of its own fixes in other sentences: GSA, GST, and that it has none. */
export interface Receiver {
  input: string;
  talker: string;
  hdop?: number;
  hdopAt?: number;
  latSigma?: number | undefined;
  lonSigma?: number | undefined;
  sigmaAt?: number;
  /** When a note last told something of this receiver: one that flutters is told of once in a while. */
  notedAt?: number;
}

const MOST_RECEIVERS = 12;
/** Seconds between two notes on the same receiver (our choice). */
const NOTE_EVERY = 3600;

export function receiverOf(
  receivers: Receiver[],
  { input, talker }: { input: string; talker: string },
): Receiver | undefined {
  for (let i = 0; i < receivers.length; i++) {
    const receiver = receivers[i]!;
    if (receiver.talker === talker && receiver.input === input) return receiver;
  }
  return undefined;
}

/** The receiver that a sentence comes from; when there are too many, the first gives way (noise can invent talkers without end). */
function meet(receivers: Receiver[], { talker }: Sentence, input: string): Receiver {
  const known = receiverOf(receivers, { input, talker });
  if (known) return known;
  const made: Receiver = { input, talker };
  if (receivers.length >= MOST_RECEIVERS) receivers.shift();
  receivers.push(made);
  return made;
}

/** Takes an HDOP (GSA) or standard deviations (GST). */
export function hearAccuracy(
  receivers: Receiver[],
  sentence: Sentence,
  input: string,
  said: Extract<Observation, { kind: 'dilution' | 'accuracy' }>,
  at: number,
): void {
  const receiver = meet(receivers, sentence, input);
  if (said.kind === 'dilution') {
    if (said.hdop === undefined) return;
    receiver.hdop = said.hdop;
    receiver.hdopAt = at;
  } else {
    receiver.latSigma = said.latSigma;
    receiver.lonSigma = said.lonSigma;
    receiver.sigmaAt = at;
  }
}

/** HDOP from GSA while it is fresh. */
export const hdopOf = (receiver: Receiver | undefined, at: number): number | undefined =>
  receiver?.hdopAt !== undefined && at - receiver.hdopAt <= ACCURACY_LIMIT ? receiver.hdop : undefined;

/** One-sigma error per axis from GST while it is fresh, metres: the root mean square of the two axes, or the one that is told. */
export function statedSigma(receiver: Receiver | undefined, at: number): number | undefined {
  if (receiver?.sigmaAt === undefined || at - receiver.sigmaAt > ACCURACY_LIMIT) return undefined;
  const { latSigma, lonSigma } = receiver;
  if (latSigma === undefined || lonSigma === undefined) return latSigma ?? lonSigma;
  return Math.hypot(latSigma, lonSigma) / Math.SQRT2;
}

const REASONS: Record<NoPositionObservation['reason'], string> = {
  'no-fix': 'reports that it has no fix',
  blank: 'sends no position',
  zero: 'sends 0°N 0°E, which is no position',
  simulated: 'sends simulated positions, which are not used',
  manual: 'sends a position typed in by hand, which is not used',
};

/** A note that a receiver gives no position, and why; undefined when it was told of lately. */
export const noteNoPosition = (
  receivers: Receiver[],
  sentence: Sentence,
  input: string,
  reason: NoPositionObservation['reason'],
  at: number,
): string | undefined => note(receivers, sentence, input, REASONS[reason], at);

/** A note that a receiver's clock has gone back; undefined when it was told of lately. */
export const noteClockBack = (
  receivers: Receiver[],
  sentence: Sentence,
  input: string,
  at: number,
): string | undefined =>
  note(receivers, sentence, input, 'has set its clock back; its fixes are taken again', at);

function note(
  receivers: Receiver[],
  sentence: Sentence,
  input: string,
  what: string,
  at: number,
): string | undefined {
  const receiver = meet(receivers, sentence, input);
  if (receiver.notedAt !== undefined && at - receiver.notedAt < NOTE_EVERY) return undefined;
  receiver.notedAt = at;
  return `${sentence.talker} ${sentence.id} on ${input} ${what}`;
}
