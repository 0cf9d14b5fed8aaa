import type { AlertKind } from '../shared/alerts/alert.ts';
import { createEngine, type EngineState, step } from '../shared/engine.ts';
import type { Event } from '../shared/events.ts';
import type { Input } from '../shared/input.ts';
import type { Settings } from '../shared/settings.ts';
import { type Anchorage, markOf } from './config/anchorage.ts';
import { recordedLines } from './intake/recorded.ts';

export interface Summary {
  event: 'summary';
  t: number;
  sentences: number;
  rejected: { checksum: number; malformed: number; unknown: number };
  /** Lines that were not blank, and pieces found beyond one a line (glued sentences, leading noise): sentences + rejected = lines + glued. */
  lines: number;
  glued: number;
  from?: number;
  to?: number;
  /** Times each kind of alert became active. */
  alerts: Partial<Record<AlertKind, number>>;
  circle?: number;
  notes: string[];
  seconds: number;
}

/** A mark further ahead of the first sentence than this is taken as "already there": its time belongs to another day. */
const MARK_AHEAD_LIMIT = 86_400;

/**
 * Recorded sentences through the engine as fast as it can. The mark of the anchorage is set at its own time when the
 * recording contains it, else at the first sentence.
 */
export async function replay(
  files: string[],
  settings: Settings,
  anchorage: Anchorage | undefined,
  heard: (event: Event) => void,
): Promise<{ engine: EngineState; summary: Summary }> {
  const started = performance.now();
  let engine = createEngine(settings);
  const alerts: Summary['alerts'] = {};
  let from: number | undefined;
  let to: number | undefined;
  let lines = 0;
  let markAt: number | undefined;

  const take = (input: Parameters<typeof step>[1]) => {
    const done = step(engine, input);
    engine = done.state;
    for (const event of done.events) {
      if (event.event === 'alert' && event.state === 'active-unacknowledged')
        alerts[event.kind] = (alerts[event.kind] ?? 0) + 1;
      heard(event);
    }
    return done.answer;
  };
  const setMark = (at: number) => {
    if (!anchorage) return;
    const { lat, lon, sigma } = markOf(anchorage, at);
    take({
      kind: 'command',
      at,
      by: 'anchorage file',
      command: { do: 'mark', how: { lat, lon, sigma, from: 'anchorage-file' } },
    });
    markAt = undefined;
  };

  const recording = recordedLines(files);
  for await (const batch of recording.lines) {
    for (const { at, source, text } of batch) {
      if (from === undefined) {
        from = at;
        const told = anchorage?.mark.at;
        markAt = told !== undefined && told > at && told - at < MARK_AHEAD_LIMIT ? told : at;
      }
      if (markAt !== undefined && markAt <= at) setMark(Math.max(markAt, engine.now ?? markAt));
      lines++;
      take({ kind: 'line', at, source, text });
      to = at;
    }
  }
  const { sentences, rejected } = countsOf(engine);
  const pieces = sentences + rejected.checksum + rejected.malformed + rejected.unknown;
  const circle = engine.watch.circle?.radius;
  const summary: Summary = {
    event: 'summary',
    t: to ?? 0,
    sentences,
    rejected,
    lines,
    glued: pieces - lines,
    ...(from === undefined || to === undefined ? {} : { from, to }),
    alerts,
    ...(circle === undefined ? {} : { circle }),
    notes: recording.notes,
    seconds: (performance.now() - started) / 1000,
  };
  return { engine, summary };
}

/**
 * A night of the logbook through the engine, from the state in which its mark was set and with every order that was given: the events
 * are those of that night, to the byte. `inputs` are JSON lines as the logbook gives them.
 */
export async function replayNight(
  inputs: AsyncIterable<string>,
  lieEvery: number | undefined,
  heard: (event: Event) => void,
): Promise<Summary> {
  const started = performance.now();
  const alerts: Summary['alerts'] = {};
  const notes: string[] = [];
  let engine: EngineState | undefined;
  let before: ReturnType<typeof countsOf> | undefined;
  let [from, to, lines]: [number | undefined, number | undefined, number] = [undefined, undefined, 0];
  let circle: number | undefined;
  for await (const text of inputs) {
    const input = JSON.parse(text) as Input | { kind: 'checkpoint'; state: EngineState; exact: boolean };
    if (input.kind === 'checkpoint') {
      engine = { ...createEngine(input.state.settings), ...input.state };
      if (lieEvery !== undefined) engine.settings = { ...engine.settings, lieEvery };
      before = countsOf(engine);
      if (!input.exact)
        notes.push(
          'The state in which the mark was set is lost: what she did shortly before was heard instead.',
        );
      continue;
    }
    if (!engine) throw new Error('the inputs of a night begin with a checkpoint');
    from ??= input.at;
    to = input.at;
    if (input.kind === 'line') lines++;
    if (input.kind === 'settings' && lieEvery !== undefined) input.settings.lieEvery = lieEvery;
    const done = step(engine, input);
    engine = done.state;
    circle = engine.watch.circle?.radius ?? circle;
    for (const event of done.events) {
      if (event.event === 'alert' && event.state === 'active-unacknowledged')
        alerts[event.kind] = (alerts[event.kind] ?? 0) + 1;
      heard(event);
    }
  }
  if (!engine || !before) throw new Error('there is nothing in this night');
  const now = countsOf(engine);
  const rejected = { ...now.rejected };
  for (const reason of ['checksum', 'malformed', 'unknown'] as const)
    rejected[reason] -= before.rejected[reason];
  const sentences = now.sentences - before.sentences;
  return {
    event: 'summary',
    t: to ?? 0,
    sentences,
    rejected,
    lines,
    glued: sentences + rejected.checksum + rejected.malformed + rejected.unknown - lines,
    ...(from === undefined || to === undefined ? {} : { from, to }),
    alerts,
    ...(circle === undefined ? {} : { circle }),
    notes,
    seconds: (performance.now() - started) / 1000,
  };
}

function countsOf({ inputs }: EngineState): Pick<Summary, 'sentences' | 'rejected'> {
  const rejected = { checksum: 0, malformed: 0, unknown: 0 };
  let sentences = 0;
  for (const input of inputs) {
    sentences += input.sentences;
    for (const reason of ['checksum', 'malformed', 'unknown'] as const)
      rejected[reason] += input.rejected[reason];
  }
  return { sentences, rejected };
}
