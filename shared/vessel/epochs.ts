import type { LatLon } from '../quantities/estimate.ts';
import type { Sentence } from '../sentences/decoded.ts';

/**
 * Whether a sentence brings a new moment. A receiver, or the bus that relays it, may repeat its last fix for ever with good status
 * and checksum (38 minutes in the recorded lake-2014-06-27), while a healthy one at rest repeats its position for minutes with
 * the time going on: only the time tells the two apart. So a fix counts when its UTC has advanced, and the first sentence of a
 * source, which has nothing to compare with, does not count yet.
 */
export interface Epoch {
  input: string;
  talker: string;
  id: string;
  /** Time of day of the last moment that counted, seconds; absent for sentences without time. */
  utc?: number;
  /** When the moment last advanced (absent: not yet), and when the sentence last came, on the engine's timeline. */
  advancedAt?: number;
  heardAt: number;
  /** A time earlier than `utc`, and how many sentences in a row have advanced from there. */
  back?: { utc: number; count: number } | undefined;
  /** Position of the last sentence, while there is no time to go by or none has advanced yet. */
  place?: Place;
}

export interface Place extends LatLon {
  at: number;
  timeOfDay?: number;
}

/** `repeated`: not a new moment; `back-stepped`: new, after the receiver's clock has gone back. */
export type Freshness = 'new' | 'repeated' | 'back-stepped';

const DAY = 86_400;
/** So many sentences in a row on an earlier time make it the receiver's time. */
const BACK_SENTENCES = 3;
const MOST_EPOCHS = 24;
/** A sentence that has not come for so many seconds tells nothing of its receiver's clock any more. */
const HEARD = 5;
/** After a silence of so many seconds a time of day can't be compared with the last one any more: later and earlier look alike. */
const FORGOTTEN = DAY / 4;

/** Seconds from time of day `a` to `b` the short way round midnight, −12 h … 12 h. */
export function between(a: number, b: number): number {
  const difference = (b - a) % DAY;
  if (difference > DAY / 2) return difference - DAY;
  return difference <= -DAY / 2 ? difference + DAY : difference;
}

/** Follows the time of day that a sentence carries. Going back counts only when it goes on steadily from there. */
export function advance(
  epochs: Epoch[],
  sentence: Sentence,
  input: string,
  timeOfDay: number,
  at: number,
): Freshness {
  const epoch = epochOf(epochs, sentence, input, at);
  const { utc } = epoch;
  const isForgotten = at - epoch.heardAt > FORGOTTEN;
  epoch.heardAt = at;
  if (utc === undefined || isForgotten) {
    epoch.utc = timeOfDay;
    return 'repeated';
  }
  const step = between(utc, timeOfDay);
  if (step === 0) return 'repeated';
  if (step < 0 && !isSteady(epoch, timeOfDay)) return 'repeated';
  epoch.utc = timeOfDay;
  epoch.advancedAt = at;
  if (epoch.back) epoch.back = undefined;
  return step > 0 ? 'new' : 'back-stepped';
}

function isSteady(epoch: Epoch, timeOfDay: number): boolean {
  const { back } = epoch;
  const step = back ? between(back.utc, timeOfDay) : -1;
  if (back && step > 0) {
    back.utc = timeOfDay;
    back.count++;
    return back.count >= BACK_SENTENCES;
  }
  if (step < 0) epoch.back = { utc: timeOfDay, count: 1 };
  return false;
}

/**
 * The same for a position without time (GLL of old units): it counts when the position differs from the last one, or when another
 * sentence of the same talker proves that its clock goes on. A receiver that holds its position and never tells a time can't be
 * told from a frozen one, and is taken as frozen.
 */
export function moves(
  epochs: Epoch[],
  sentence: Sentence,
  input: string,
  place: LatLon,
  at: number,
): Freshness {
  const epoch = epochOf(epochs, sentence, input, at);
  epoch.heardAt = at;
  const last = epoch.place;
  epoch.place = { lat: place.lat, lon: place.lon, at };
  if (!last) return 'repeated';
  const differs = last.lat !== place.lat || last.lon !== place.lon;
  if (!differs && !hasAdvancedSince(epochs, sentence, input, epoch.advancedAt)) return 'repeated';
  epoch.advancedAt = at;
  return 'new';
}

/** Keeps where a source began, so that its first step can be judged although its first sentence did not count. */
export function remember(
  epochs: Epoch[],
  sentence: Sentence,
  input: string,
  { lat, lon, timeOfDay }: LatLon & { timeOfDay?: number },
  at: number,
): void {
  const epoch = epochOf(epochs, sentence, input, at);
  if (epoch.advancedAt !== undefined || timeOfDay === undefined) return;
  epoch.place = { lat, lon, at, timeOfDay };
}

/** Where a source was when it was first heard. */
export const firstPlace = (epochs: Epoch[], sentence: Sentence, input: string): Place | undefined =>
  epochs.find((epoch) => epoch.id === sentence.id && isSameReceiver(epoch, sentence, input))?.place;

function hasAdvancedSince(
  epochs: Epoch[],
  sentence: Sentence,
  input: string,
  since: number | undefined,
): boolean {
  return epochs.some(
    (epoch) =>
      epoch.utc !== undefined &&
      epoch.advancedAt !== undefined &&
      isSameReceiver(epoch, sentence, input) &&
      (since === undefined || epoch.advancedAt > since),
  );
}

/** True when the talker sends times, and none of them advances: what else it reckons from its satellites is then old as well. */
export function isFrozen(epochs: Epoch[], sentence: Sentence, input: string, at: number): boolean {
  let heard = false;
  for (let i = 0; i < epochs.length; i++) {
    const epoch = epochs[i]!;
    if (epoch.utc === undefined || !isSameReceiver(epoch, sentence, input) || at - epoch.heardAt > HEARD)
      continue;
    if (epoch.advancedAt !== undefined && at - epoch.advancedAt <= HEARD) return false;
    heard = true;
  }
  return heard;
}

const isSameReceiver = (
  source: { input: string; talker: string },
  sentence: Sentence,
  input: string,
): boolean => source.talker === sentence.talker && source.input === input;

function epochOf(epochs: Epoch[], sentence: Sentence, input: string, at: number): Epoch {
  let oldest = 0;
  for (let i = 0; i < epochs.length; i++) {
    const epoch = epochs[i]!;
    if (epoch.id === sentence.id && isSameReceiver(epoch, sentence, input)) return epoch;
    if (epoch.heardAt < epochs[oldest]!.heardAt) oldest = i;
  }
  const { talker, id } = sentence;
  const made: Epoch = { input, talker, id, heardAt: at };
  epochs[epochs.length < MOST_EPOCHS ? epochs.length : oldest] = made;
  return made;
}
