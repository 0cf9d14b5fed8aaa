import type { WatchChange } from '../shared/commands.ts';
import { screenName } from './prefs.ts';
import { words } from './words.ts';

/** What a person asks of the boat, over HTTP. Each resolves to undefined when done, else to the reason in words. */

export type Outcome = string | undefined;

const LIMIT_MS = 8000;

async function ask(method: string, path: string, body?: unknown): Promise<Outcome> {
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), LIMIT_MS);
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
    return answer.ok ? undefined : await reason(answer);
  } catch {
    return words.noAnswer;
  } finally {
    clearTimeout(timer);
  }
}

/** RFC 9457: the detail says it best, else the title. */
async function reason(answer: Response): Promise<string> {
  const problem = await answer.json().catch(() => undefined);
  return problem?.detail ?? problem?.title ?? `${answer.status} ${answer.statusText}`;
}

export type MarkHow =
  | Record<string, never>
  | { lat: number; lon: number }
  | { bearing: number; distance: number };

export const mark = (how: MarkHow): Promise<Outcome> => ask('POST', '/mark', how);
export const aweigh = (): Promise<Outcome> => ask('POST', '/weigh/aweigh');
export const changeWatch = (change: WatchChange): Promise<Outcome> => ask('PATCH', '/watch', change);
export const startWeighing = (): Promise<Outcome> => ask('POST', '/weigh', {});
export const stopWeighing = (): Promise<Outcome> => ask('DELETE', '/weigh');
export const acknowledge = (id: string): Promise<Outcome> =>
  ask('POST', `/alerts/${encodeURIComponent(id)}/acknowledge`);
export const silence = (id: string): Promise<Outcome> =>
  ask('POST', `/alerts/${encodeURIComponent(id)}/silence`);
