import { createEngine, type EngineState, type Step, step } from '../shared/engine.ts';
import type { Answer, Event } from '../shared/events.ts';
import type { Input } from '../shared/input.ts';
import type { Settings } from '../shared/settings.ts';
import { snapshot } from '../shared/snapshot.ts';
import type { Journal } from './journal/journal.ts';
import type { NightKeeper } from './logbook/keep.ts';
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
  /** An exception where none should be: of the engine, of the journal, or of who hears the events. Must not throw. */
  broken(error: unknown, room: 'engine' | 'journal' | 'pages'): void;
  /** Keeps the logbook beside the watch. */
  nights?: NightKeeper | undefined;
}

export function createKeeper(state: EngineState, ports: KeeperPorts): Keeper {
  const { journal, timeline, heard, broken, nights } = ports;
  let engine = state;

  function take(input: Input): Answer | undefined {
    let done: Step;
    if (input.kind === 'command') nights?.before(engine, input.command);
    try {
      done = step(engine, input);
      engine = done.state;
    } catch (error) {
      broken(error, 'engine');
      return undefined;
    }
    nights?.heard(engine, input, done.events);
    // Who listens may fail; what was done stays done, and is answered.
    try {
      heard(done.events, input);
    } catch (error) {
      broken(error, 'pages');
    }
    return done.answer;
  }

  /** Hands an input to the journal. A disk that refuses is told by the journal itself; its own exceptions are told here. */
  function keep(input: Exclude<Input, { kind: 'tick' }>): Promise<void> | undefined {
    try {
      if (input.kind !== 'line') return journal.act(input);
      journal.line(input);
      return undefined;
    } catch (error) {
      broken(error, 'journal');
      return Promise.reject(error);
    }
  }

  return {
    engine: () => engine,
    now: () => timeline.now(),
    async feed(incoming) {
      const input = { ...incoming, at: timeline.stamp() } as Exclude<Input, { kind: 'tick' }>;
      // First asked, then taken: an order is durable before it is confirmed. Whether it could be kept is heard at the end.
      const safe = keep(input)?.then(
        () => true,
        () => false,
      );
      const answer = take(input);
      if (!safe) return undefined;
      if (!(await safe) && answer?.ok) {
        return {
          ok: false,
          problem: 'unavailable',
          why: 'Done, but it could not be written to the disk: a power cut would lose it.',
        };
      }
      return answer;
    },
    tick: () => void take({ kind: 'tick', at: timeline.stamp() }),
    async checkpoint() {
      nights?.save(engine);
      await journal.checkpoint(engine, engine.now ?? timeline.now());
    },
  };
}

/**
 * The engine as the journal left it: the newest checkpoint and every input since. An input that breaks it is left out and told in
 * `notes`, like all that was damaged: a watch that does not start is worse than one that has forgotten a line.
 */
export async function restoreEngine(
  journal: Journal,
  settings: Settings,
  nights?: NightKeeper,
): Promise<{ engine: EngineState; notes: string[] }> {
  // A checkpoint of an older hawse may lack a room that has been built since.
  const whole = (state: unknown): EngineState => ({ ...createEngine(settings), ...(state as EngineState) });
  const { state, inputs, notes } = await journal.restore((found) => {
    const copy = whole(structuredClone(found));
    // One that the engine cannot live with for a second would break at every input.
    snapshot(step(copy, { kind: 'tick', at: (copy.now ?? 0) + 1 }).state, (copy.now ?? 0) + 1);
  });
  let engine = whole(state);
  let left = 0;
  nights?.resume(engine);
  for await (const input of inputs) {
    if (input.kind === 'command') nights?.before(engine, input.command);
    try {
      const done = step(engine, input);
      engine = done.state;
      nights?.heard(engine, input, done.events);
    } catch (error) {
      if (left++ === 0) notes.push(`An input of the journal was left out: ${(error as Error).message}`);
    }
  }
  nights?.resumed(engine);
  if (left > 1) notes.push(`${left} inputs of the journal were left out.`);
  return { engine, notes };
}
