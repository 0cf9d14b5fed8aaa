import { type EngineState, step } from '../engine.ts';
import type { Event } from '../events.ts';
import type { Hearing } from '../hearing.ts';
import type { Input } from '../input.ts';
import type { LatLon } from '../quantities/estimate.ts';
import type { VesselView } from '../vessel/view.ts';
import { type Book, follow } from './book.ts';
import { anew, type NightHearing, NotHeard } from './heard.ts';
import type { Night, Sample } from './night.ts';
import { summaryOf } from './observe.ts';
import { type NightRecord, type Origin, STEP } from './record.ts';
import { tried, trier, type WhatIf } from './what-if.ts';

/** A night as it was recorded: the engine's state just before the mark, and every input from there on, in turn. */
export interface Recording {
  at: number;
  /** False: the state before the mark is not the very one, but warmed up on what was heard before. */
  exact: boolean;
  state: EngineState;
  inputs: readonly Input[];
}

/** An alert when it was first raised, or first was more than a caution: how far she had gone then. */
export interface Raised {
  id: string;
  at: number;
  /** Roller to the mark in force, metres; absent: no position then. */
  distance?: number;
  /** Where the roller was. */
  place?: LatLon;
}

export interface Lived {
  night: Omit<Night, 'checksums'>;
  raised: Raised[];
}

/** A night that is lived again piece by piece, so that whoever does it can show how far it is, or stop. */
export interface Rerun {
  /** Takes up to so many more inputs; true when the night is through. */
  go(inputs: number): boolean;
  /** Share of the inputs that is through, 0 to 1, and seconds of the night that were lived. */
  progress(): { share: number; seconds: number };
  /** The state of the engine, and how many inputs it has taken: not to be kept, it goes on changing. */
  engine(): { state: EngineState; taken: number };
  /** What has come of it, once it is through; undefined when there was no night at all in it. */
  lived(): Lived | undefined;
}

/**
 * Without `what` it was so: the night's own record again. `origin` names it. `ears`: where what the instruments said comes from; the
 * engine, the record and what comes of it are the same, to the byte.
 */
export function rerun(
  { state, inputs }: Recording,
  origin: Origin,
  what: WhatIf = {},
  ears: NightHearing = anew,
): Rerun {
  let engine = tried(state, what);
  const change = trier(what);
  const book: Book = {};
  const samples: Sample[] = [];
  const raised: Raised[] = [];
  const loud = new Set<string>();
  let record: NightRecord | undefined;
  let taken = 0;
  /** The boat as the engine saw her last. */
  let seen: VesselView | undefined;
  const hearing: Hearing = {
    second(state, at) {
      const heard = ears.second(state, at);
      seen = heard.vessel;
      return heard;
    },
    line(state, line) {
      const all = ears.line(state, line);
      for (const { fixed } of all) seen = fixed ?? seen;
      return all;
    },
    look(state, at) {
      seen = ears.look(state, at);
      return seen;
    },
  };
  const look = (at: number) => ears.look(engine, at);

  function take(input: Input): void {
    let events: readonly Event[];
    try {
      const done = step(engine, input, hearing);
      engine = done.state;
      events = done.events;
    } catch (error) {
      if (error instanceof NotHeard) throw error;
      ears.broken();
      return; // an input that breaks the engine was left out then, too
    }
    ears.end(engine, input);
    for (const event of events)
      if (event.event === 'alert') note(event.id, event.t, event.priority !== 'caution');
    const turned = follow(book, engine, input, events, () => origin, look);
    if (turned.sample) samples.push(turned.sample);
    record = book.open ?? turned.closed ?? record;
  }

  function note(id: string, at: number, isLoud: boolean): void {
    const before = raised.findIndex((other) => other.id === id);
    // A caution that grows into a warning or an alarm is raised anew.
    if (before >= 0 && (loud.has(id) || !isLoud)) return;
    if (isLoud) loud.add(id);
    if (before >= 0) raised.splice(before, 1);
    const place = seen?.roller?.value;
    const distance = place && engine.watch.range?.distance;
    raised.push({
      id,
      at,
      ...(distance === undefined ? {} : { distance }),
      ...(place ? { place: { lat: place.lat, lon: place.lon } } : {}),
    });
  }

  return {
    go(most) {
      const end = Math.min(inputs.length, taken + most);
      for (; taken < end; taken++) {
        ears.begin(taken);
        const input = inputs[taken]!;
        if (input.kind === 'line') take(input);
        else for (const changed of change(input)) take(changed);
      }
      return taken >= inputs.length;
    },
    progress: () => ({
      share: inputs.length === 0 ? 1 : taken / inputs.length,
      seconds: Math.max(0, (engine.now ?? 0) - (inputs[0]?.at ?? 0)),
    }),
    engine: () => ({ state: engine, taken }),
    lived() {
      if (!record) return undefined;
      const summary = structuredClone(summaryOf(record, engine));
      return { night: structuredClone({ ...record.night, summary, step: STEP, strips: samples }), raised };
    },
  };
}
