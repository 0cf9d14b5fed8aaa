import { type EngineState, step } from '../../../shared/engine.ts';
import type { Input } from '../../../shared/input.ts';
import { snapshot } from '../../../shared/snapshot.ts';
import type { Past } from '../messages.ts';

/** States kept on the way through a night, so that any moment of it is near one of them. */
export interface Keyframes {
  /** To be called on the way, in turn; keeps one now and then. */
  pass(engine: { state: EngineState; taken: number }): void;
  /** The state at a time, lived on from the nearest that is kept before it. */
  moment(at: number): Past;
}

/** So many at most; then every other one is given up. A state is some 100 kB. */
const KEPT = 128;

export function createKeyframes(start: EngineState, inputs: readonly Input[]): Keyframes {
  let frames: { at: number; taken: number; state: string }[] = [
    { at: Number.NEGATIVE_INFINITY, taken: 0, state: JSON.stringify(start) },
  ];
  let every = 120;
  let cursor: { at: number; taken: number; engine: EngineState } | undefined;

  function nearest(at: number) {
    const frame = frames.findLast((kept) => kept.at <= at)!;
    // Going on is cheaper than going back, unless something that is kept lies between.
    if (cursor && cursor.at <= at && cursor.at >= frame.at) return cursor;
    return { at: frame.at, taken: frame.taken, engine: JSON.parse(frame.state) as EngineState };
  }

  return {
    pass({ state, taken }) {
      const at = state.now;
      if (at === undefined || at < frames.at(-1)!.at + every) return;
      frames.push({ at, taken, state: JSON.stringify(state) });
      if (frames.length <= KEPT) return;
      frames = frames.filter((_, i) => i % 2 === 0);
      every *= 2;
    },
    moment(at) {
      const from = nearest(at);
      let { engine, taken } = from;
      for (; taken < inputs.length && inputs[taken]!.at <= at; taken++) {
        try {
          engine = step(engine, inputs[taken]!).state;
        } catch {} // an input that breaks the engine was left out then, too
      }
      // Time went on to that moment, also where nothing was heard.
      if (at > (engine.now ?? at)) engine = step(engine, { kind: 'tick', at }).state;
      cursor = { at, taken, engine };
      return snapshot(engine, at);
    },
  };
}
