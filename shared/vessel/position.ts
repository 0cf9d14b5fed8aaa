import type { Sentence } from '../sentences/decoded.ts';
import type { PositionObservation } from '../sentences/observation.ts';
import { type Channel, createChannel, serving, sourceOf, take } from './channel.ts';
import { type Doubt, doubted } from './doubt.ts';
import { between, type Epoch, firstPlace, type Place } from './epochs.ts';
import { silence } from './limits.ts';
import { FEWEST_SATELLITES, positionRank } from './ranks.ts';
import { implausible, type Moving } from './step.ts';
import { createWander, type Wander, wanders } from './wander.ts';

/** A fix that counted, with the boat's velocity at the time as far as it was told. */
export interface Fix extends PositionObservation {
  sog?: number | undefined;
  cog?: number | undefined;
}

/** Where the boat is, by whom, and whether to believe it. */
export interface PositionState {
  channel: Channel<Fix>;
  epochs: Epoch[];
  /** Time of day of the last fix that counted, whoever gave it: several sentences carry the same one. */
  utc?: number | undefined;
  wander: Wander;
  doubt?: Doubt;
  /** Since when two receivers have disagreed. */
  disagreeing?: number | undefined;
}

/** HDOP above which a fix is not worth its digits (our choice; the IMO receiver standards are met at 4 or less). */
const POOR_HDOP = 8;
/** Seconds by which sentences may be late on a line: a gap between two UTC times can't exceed that between arrivals by more. */
const LATENESS = 5;
/** A source that gives a fix at least this often, seconds, is not yet old between two of them. */
const LONGEST_INTERVAL_LIMIT = 10;

export const createPosition = (): PositionState => ({
  channel: createChannel(),
  epochs: [],
  wander: createWander(),
});

/**
 * Takes a fix that is new to its source. True when it is a new fix of the boat: from the serving source, and not one that another
 * sentence has brought before. `hdop` is what the receiver tells beside the sentence.
 */
export function takeFix(
  state: PositionState,
  sentence: Sentence,
  input: string,
  fix: Fix,
  hdop: number | undefined,
  at: number,
): boolean {
  const source = sourceOf(state.channel, sentence, input);
  const before = source ? { ...source.value, at: source.at } : firstPlace(state.epochs, sentence, input);
  const now = take(state.channel, sentence, input, positionRank(sentence.id, fix), fix, at);
  if (now !== serving(state.channel)) return false;
  const isTwin = fix.timeOfDay !== undefined && fix.timeOfDay === state.utc;
  state.utc = fix.timeOfDay;
  if (before) checkStep(state, before, fix, at);
  checkQuality(state, fix, fix.hdop ?? hdop, at);
  return !isTwin;
}

function checkStep(state: PositionState, before: Moving & Place, fix: Fix, at: number): void {
  const dt = interval(before.timeOfDay, fix.timeOfDay, at - before.at);
  const reason = implausible(before, fix, dt);
  const told = before.sog !== undefined && fix.sog !== undefined;
  if (reason !== undefined) {
    state.doubt = doubted(state.doubt, 'step', reason, at);
    state.wander = createWander();
  } else if (!told || dt > LONGEST_INTERVAL_LIMIT) {
    state.wander = createWander();
  } else if (wanders(state.wander, before, fix, dt, at)) {
    state.doubt = doubted(state.doubt, 'wander', 'it wanders while the receiver reports no such speed', at);
  }
}

/** Seconds between two fixes: by their UTC, since lines deliver late and in bunches, unless the receiver's clock has stepped. */
function interval(before: number | undefined, now: number | undefined, elapsed: number): number {
  const told = before === undefined || now === undefined ? 0 : between(before, now);
  return told > 0 ? Math.min(told, elapsed + LATENESS) : elapsed;
}

/** Relays that do not know the number of satellites send 0, beside a good fix: no fix is made of none, so that says nothing. */
function checkQuality(state: PositionState, fix: Fix, hdop: number | undefined, at: number): void {
  const { quality, satellites } = fix;
  let reason: string | undefined;
  if (quality === 'estimated') reason = 'the receiver has no satellite fix and only estimates it';
  else if (satellites !== undefined && satellites > 0 && satellites < FEWEST_SATELLITES)
    reason = `the receiver uses only ${satellites} satellites`;
  else if (hdop !== undefined && hdop > POOR_HDOP) reason = `the satellites stand badly (HDOP ${hdop})`;
  if (reason !== undefined) state.doubt = doubted(state.doubt, 'quality', reason, at);
}

/** Seconds after which the serving source's fix is old: 5, up to 10 for one that is known to be slow. */
export const positionLimit = (interval: number): number => silence(interval, LONGEST_INTERVAL_LIMIT);
