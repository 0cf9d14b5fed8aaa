import { createEngine, type EngineState, step } from '../shared/engine.ts';
import type { Answer, Event } from '../shared/events.ts';
import type { Input } from '../shared/input.ts';
import type { Settings } from '../shared/settings.ts';
import type { Journal } from './journal/journal.ts';
import type { Timeline } from './timeline.ts';

/** An input without its time: the keeper stamps it. */
type Unstamped<T> = T extends { at: number } ? Omit<T, 'at'> : never;
export type Incoming = Unstamped<Exclude<Input, { kind: 'tick' }>>;

/**
 * Keeps the watch: stamps every input, journals it, steps the engine, passes the events on. The one place where the engine's
 * state changes. An exception in the engine never ends the watch: `broken` is told, and the next input is tried.
 */
export interface Keeper {
  engine(): EngineState;
  now(): number;
  /** Takes an input; the answer, when it is a command, comes when the command is safe on the disk. */
  feed(input: Incoming): Promise<Answer | undefined>;
  /** Lets time pass when nothing arrives. */
  tick(): void;
  checkpoint(): Promise<void>;
}

export interface KeeperPorts {
  journal: Journal;
  timeline: Timeline;
  heard(events: Event[], input: Input): void;
  broken(error: unknown): void;
}

export function createKeeper(state: EngineState, ports: KeeperPorts): Keeper {
  const { journal, timeline, heard, broken } = ports;
  let engine = state;

  function take(input: Input): Answer | undefined {
    try {
      const done = step(engine, input);
      engine = done.state;
      heard(done.events, input);
      return done.answer;
    } catch (error) {
      broken(error);
      return undefined;
    }
  }

  return {
    engine: () => engine,
    now: () => timeline.now(),
    async feed(incoming) {
      const input = { ...incoming, at: timeline.stamp() } as Exclude<Input, { kind: 'tick' }>;
      if (input.kind === 'line') {
        journal.line(input);
        take(input);
        return undefined;
      }
      const kept = journal.act(input);
      const answer = take(input);
      const safe = await kept.then(
        () => true,
        () => false,
      );
      if (answer?.ok && !safe) {
        return {
          ok: false,
          problem: 'unavailable',
          why: 'Done, but it could not be written to the disk: a power cut would lose it.',
        };
      }
      return answer;
    },
    tick: () => void take({ kind: 'tick', at: timeline.stamp() }),
    checkpoint: () => journal.checkpoint(engine, engine.now ?? timeline.now()),
  };
}

/**
 * The engine as the journal left it: the newest checkpoint and every input since. An input that breaks it is left out and told in
 * `notes`, like all that was damaged: a watch that does not start is worse than one that has forgotten a line.
 */
export async function restoreEngine(
  journal: Journal,
  settings: Settings,
): Promise<{ engine: EngineState; notes: string[] }> {
  const { state, inputs, notes } = await journal.restore();
  // A checkpoint of an older hawse may lack a room that has been built since.
  let engine: EngineState = { ...createEngine(settings), ...(state as EngineState | undefined) };
  let left = 0;
  for await (const input of inputs) {
    try {
      engine = step(engine, input).state;
    } catch (error) {
      if (left++ === 0) notes.push(`An input of the journal was left out: ${(error as Error).message}`);
    }
  }
  if (left > 1) notes.push(`${left} inputs of the journal were left out.`);
  return { engine, notes };
}
