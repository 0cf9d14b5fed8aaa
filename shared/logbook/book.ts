import type { EngineState } from '../engine.ts';
import type { Event } from '../events.ts';
import type { Input } from '../input.ts';
import { view } from '../vessel/vessel.ts';
import type { Sample } from './night.ts';
import { endNight, type Look, observe, reopenNight } from './observe.ts';
import { beginNight, type NightRecord, type Origin } from './record.ts';

/** What becomes of nights as the engine goes on: the one that is open, and the last that was closed, since "aweigh" can be taken back. */
export interface Book {
  open?: NightRecord;
  closed?: NightRecord;
}

export interface Turned {
  opened?: NightRecord;
  closed?: NightRecord;
  sample?: Sample;
}

/**
 * To be called after the engine has taken `input`: opens a night when a watch has begun, closes it when that is over, opens it again when
 * "aweigh" was taken back. `origin` is asked when a night begins, `look` for the boat as known now.
 */
export function follow(
  book: Book,
  engine: EngineState,
  input: Input,
  events: readonly Event[],
  origin: (at: number) => Origin,
  look: Look = (at) => view(engine.vessel, engine.settings, at),
): Turned {
  const { since } = engine.watch;
  const { open } = book;
  if (!open && since === undefined) return {};
  if (open && open.night.summary.from === since) {
    const sample = observe(open, engine, input, events, look);
    return sample ? { sample } : {};
  }
  const turned: Turned = {};
  if (open) {
    observe(open, engine, input, events, look);
    endNight(open, input.at);
    book.closed = turned.closed = open;
    delete book.open;
  }
  if (since === undefined) return turned;
  if (book.closed?.night.summary.from === since) {
    book.open = turned.opened = book.closed;
    delete book.closed;
    reopenNight(book.open, input.at);
  } else {
    const begun = beginNight(engine, input.at, origin(since), look);
    if (!begun) return turned;
    book.open = turned.opened = begun;
  }
  const sample = observe(book.open, engine, input, events, look);
  return { ...turned, ...(sample ? { sample } : {}) };
}
