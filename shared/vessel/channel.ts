import type { Sentence } from '../sentences/decoded.ts';
import { silence } from './limits.ts';

/** One way to know a quantity: one sentence of one talker on one input. */
export interface Source<V> {
  /** `input:talker+sentence`, as the view names it. */
  key: string;
  input: string;
  talker: string;
  id: string;
  /** How good it is, by sentence and by what it last said of itself; the smaller the better. */
  rank: number;
  /** The last good value, and when it came. */
  value: V;
  at: number;
  /** Seconds that usually pass between good values; 0 until learned. */
  interval: number;
  /** Since when it has come without interruption. */
  since: number;
}

/** All sources of one quantity. Exactly one of them serves it, so that two instruments are never mixed. */
export interface Channel<V> {
  sources: Source<V>[];
  /** Index of the source that serves. */
  serving?: number;
  /** A better source, and since when it has been alive and better without a break. */
  rival?: { index: number; since: number } | undefined;
}

/** What `choose` changed. */
export interface Change<V> {
  from: Source<V>;
  to: Source<V>;
  why: 'silent' | 'better';
}

/** A better source takes over after this many seconds (our choice): long enough that a loose plug does not swap sources at every touch. */
const STEADY = 10;
/**
 * A silent source is replaced by one that has come for so many seconds (our choice): when a whole bus comes back from a silence, the
 * first of its sentences must not be taken for a substitute.
 */
const SETTLED = 2;
/** A talker is any two characters, so that noise could invent sources without end. */
const MOST_SOURCES = 12;
/** A gap longer than this is an interruption, not the rhythm of a source, seconds. */
const LONGEST_INTERVAL = 60;
/** By how much one gap may change the learned interval: a median's patience with outliers, in one number of memory. */
const LEARNING = 0.1;

export const createChannel = <V>(): Channel<V> => ({ sources: [] });

/** How people call a source. */
export const nameOf = ({ talker, id, input }: Source<unknown>): string => `${talker} ${id} on ${input}`;

/** The source that a sentence belongs to, when it has given a value before. */
export function sourceOf<V>(channel: Channel<V>, sentence: Sentence, input: string): Source<V> | undefined {
  const { sources } = channel;
  for (let i = 0; i < sources.length; i++) {
    const source = sources[i]!;
    if (source.id === sentence.id && source.talker === sentence.talker && source.input === input)
      return source;
  }
  return undefined;
}

/** Takes a good value. The very first source serves at once; who serves afterwards is for `choose` to say. */
export function take<V>(
  channel: Channel<V>,
  sentence: Sentence,
  input: string,
  rank: number,
  value: V,
  at: number,
): Source<V> {
  const known = sourceOf(channel, sentence, input);
  if (known) {
    if (at - known.at > silence(known.interval, LONGEST_INTERVAL)) known.since = at;
    known.interval = learn(known.interval, at - known.at);
    known.rank = rank;
    known.value = value;
    known.at = at;
    return known;
  }
  const { talker, id } = sentence;
  const made = { key: `${input}:${talker}${id}`, input, talker, id, rank, value, at, interval: 0, since: at };
  const index = placeFor(channel);
  channel.sources[index] = made;
  if (channel.rival?.index === index) channel.rival = undefined;
  channel.serving ??= index;
  return made;
}

function learn(interval: number, gap: number): number {
  const bounded = Math.min(gap, LONGEST_INTERVAL);
  if (interval === 0) return bounded;
  const most = LEARNING * interval;
  return interval + Math.max(-most, Math.min(most, bounded - interval));
}

/** Where a new source goes: behind the others, or in the place of the one that has been silent longest. */
function placeFor<V>({ sources, serving }: Channel<V>): number {
  if (sources.length < MOST_SOURCES) return sources.length;
  let oldest = serving === 0 ? 1 : 0;
  for (let i = 0; i < sources.length; i++)
    if (i !== serving && sources[i]!.at < sources[oldest]!.at) oldest = i;
  return oldest;
}

/** The source that serves the quantity, however old its value is. */
export const serving = <V>({ sources, serving: index }: Channel<V>): Source<V> | undefined =>
  index === undefined ? undefined : sources[index];

/** The serving source while its value is not older than `limit` seconds. */
export function fresh<V>(channel: Channel<V>, at: number, limit: number): Source<V> | undefined {
  const source = serving(channel);
  return source && at - source.at <= limit ? source : undefined;
}

/** True when a source has given a value within its rhythm. */
export const isAlive = (source: Source<unknown>, at: number, limit: number): boolean =>
  at - source.at <= silence(source.interval, limit);

/**
 * Decides who serves, once a second: another source when the serving one has fallen silent, a better one when it has been alive
 * and better without a break for some seconds. Returns what has changed.
 */
export function choose<V>(channel: Channel<V>, at: number, limit: number): Change<V> | undefined {
  const now = serving(channel);
  if (!now) return undefined;
  const best = bestOther(channel, at, limit);
  const isSilent = !isAlive(now, at, limit);
  if (best === undefined || (!isSilent && channel.sources[best]!.rank >= now.rank)) {
    channel.rival = undefined;
    return undefined;
  }
  if (isSilent) return serve(channel, now, best, 'silent');
  if (channel.rival?.index !== best) channel.rival = { index: best, since: at };
  return at - channel.rival.since >= STEADY ? serve(channel, now, best, 'better') : undefined;
}

function bestOther<V>(
  { sources, serving: index }: Channel<V>,
  at: number,
  limit: number,
): number | undefined {
  let best: number | undefined;
  for (let i = 0; i < sources.length; i++) {
    const source = sources[i]!;
    if (i === index || !isAlive(source, at, limit) || at - source.since < SETTLED) continue;
    if (best === undefined || source.rank < sources[best]!.rank) best = i;
  }
  return best;
}

function serve<V>(channel: Channel<V>, from: Source<V>, index: number, why: Change<V>['why']): Change<V> {
  channel.serving = index;
  channel.rival = undefined;
  return { from, to: channel.sources[index]!, why };
}

/** A change in words, for the notes. */
export function inWords(what: string, { from, to, why }: Change<unknown>, at: number): string {
  const reason =
    why === 'silent'
      ? `${nameOf(from)} has given nothing new for ${Math.floor(at - from.at)} s`
      : `it is better than ${nameOf(from)}`;
  return `${what} now from ${nameOf(to)}; ${reason}`;
}
