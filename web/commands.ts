import type { WatchChange } from '../shared/commands.ts';
import type { HandNeighbour } from '../shared/neighbours/view.ts';
import type { SlackTold } from '../shared/tidal-stream/view.ts';
import type { TideTold } from '../shared/tides/view.ts';
import { screenName } from './prefs.ts';
import { words } from './words.ts';

/** What a person asks of the boat, over HTTP. Each resolves to undefined when done, else to the reason in words. */

export type Outcome = string | undefined;

const LIMIT_MS = 8000;

const ask = async (method: string, path: string, body?: unknown): Promise<Outcome> =>
  (await call(method, path, body)).trouble;

export interface Reply {
  trouble: Outcome;
  /** What kind of trouble, when the boat has told it: the last word of the problem's type. */
  kind?: string;
  answer?: unknown;
}

/** One call of the api, for parts that read its answer. Never rejects. */
export async function call(method: string, path: string, body?: unknown, limitMs = LIMIT_MS): Promise<Reply> {
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), limitMs);
  try {
    const answer = await fetch(`/api/v1${path}`, {
      method,
      signal: stop.signal,
      headers: {
        // Who asks, for the log and the other screens; headers carry ASCII only.
        'hawse-name': encodeURIComponent(screenName.peek()),
        ...(body !== undefined && { 'content-type': 'application/json' }),
      },
      ...(body !== undefined && { body: JSON.stringify(body) }),
    });
    if (answer.ok) return { trouble: undefined, answer: await answer.json().catch(() => undefined) };
    const problem = await answer.json().catch(() => undefined);
    return {
      trouble: inWords(problem, answer),
      kind:
        String(problem?.type ?? '')
          .split(':')
          .at(-1) ?? '',
    };
  } catch {
    return { trouble: words.noAnswer };
  } finally {
    clearTimeout(timer);
  }
}

/** RFC 9457: the detail says it best, else the title. */
const inWords = (problem: { detail?: string; title?: string } | undefined, answer: Response): string =>
  problem?.detail ?? problem?.title ?? `${answer.status} ${answer.statusText}`;

/** What the boat says of a call that it refused, for parts that make their own calls. */
export const problemOf = async (answer: Response): Promise<string> =>
  inWords(await answer.json().catch(() => undefined), answer);

export type MarkHow =
  | Record<string, never>
  | { lat: number; lon: number }
  | { bearing: number; distance: number }
  /** To where the anchor has dug in, as the boat offers. */
  | { setBack: true };

export const mark = (how: MarkHow): Promise<Outcome> => ask('POST', '/mark', how);
/** Finds the mark from the swept track: its sigma, metres, or why not. */
export async function markFromTrack(): Promise<{ trouble: Outcome; sigma?: number }> {
  const { trouble, answer } = await call('POST', '/mark', { fromTrack: true });
  const sigma = (answer as { mark?: { sigma?: unknown } } | undefined)?.mark?.sigma;
  return { trouble, ...(typeof sigma === 'number' && { sigma }) };
}

export const aweigh = (): Promise<Outcome> => ask('POST', '/weigh/aweigh');
export const changeWatch = (change: WatchChange): Promise<Outcome> => ask('PATCH', '/watch', change);
export const tellNeighbour = (her: HandNeighbour): Promise<Outcome> => ask('POST', '/neighbours', her);
export const takeAwayNeighbour = (id: string): Promise<Outcome> => ask('DELETE', `/neighbours/${id}`);
export const tellTide = (told: TideTold): Promise<Outcome> => ask('PUT', '/tide', told);
export const forgetTide = (): Promise<Outcome> => ask('DELETE', '/tide');
export const tellSlacks = (slacks: SlackTold[]): Promise<Outcome> => ask('PUT', '/tidal-stream', { slacks });
export const forgetSlacks = (): Promise<Outcome> => ask('DELETE', '/tidal-stream');
export const startWeighing = (): Promise<Outcome> => ask('POST', '/weigh', {});
export const stopWeighing = (): Promise<Outcome> => ask('DELETE', '/weigh');
/** Absent: the apparent wind as it is now; null: none is held any more. */
export const holdWind = (angle?: null): Promise<Outcome> =>
  ask('POST', '/weigh/hold-wind', angle === undefined ? {} : { angle });
export const acknowledge = (id: string): Promise<Outcome> =>
  ask('POST', `/alerts/${encodeURIComponent(id)}/acknowledge`);
export const silence = (id: string): Promise<Outcome> =>
  ask('POST', `/alerts/${encodeURIComponent(id)}/silence`);
export const undoAweigh = (): Promise<Outcome> => ask('POST', '/weigh/undo-aweigh');

export const departureCheck = (ticked: string[]): Promise<Outcome> => ask('POST', '/check', { ticked });
export const departureItems = (items: string[] | null): Promise<Outcome> =>
  ask('PUT', '/check/items', { items });

/** What became of a signal: the helm page has shown it, on that device; or not, and why. */
export type Signalled = { seen: true; by?: string } | { seen: false; kind?: string; why: string };

/** The daemon waits 3 s for the helm page; a little more for the way. */
const SIGNAL_LIMIT_MS = 5000;

export async function signalHelm(signal: string): Promise<Signalled> {
  const { trouble, kind, answer } = await call('POST', '/signals', { signal }, SIGNAL_LIMIT_MS);
  if (trouble !== undefined) return { seen: false, why: trouble, ...(kind ? { kind } : {}) };
  const { seenBy } = (answer ?? {}) as { seenBy?: string };
  return { seen: true, ...(seenBy ? { by: seenBy } : {}) };
}
