import type { Input } from '../../shared/input.ts';

/** The journal as the logbook needs it; `data` is the folder that holds the journal, which an imported night has of its own. */
export interface Recorded {
  /** Every input after `from`, up to and with `to`, UNIX seconds. */
  inputs(data: string, from: number, to?: number): AsyncIterable<Input>;
  /** What people and the daemon did after `from`: quick, since received lines are not read. */
  acts(data: string, from: number): Promise<Input[]>;
  /** The recorded sentences from `from` to `to`, both included, a segment at a time. */
  sentences(data: string, from: number, to: number): AsyncIterable<Stretch>;
}

/** Recorded sentences of one segment, one character a byte. */
export interface Stretch {
  segment: string;
  from: number;
  to: number;
  lines: number;
  text: string;
}

/** After so many inputs whatever else waits gets its turn: the watch goes on while a night is lived again. */
const AT_A_TIME = 200;

/** Gives way to others now and then. */
export async function* gently<T>(items: AsyncIterable<T>): AsyncGenerator<T> {
  let count = 0;
  for await (const item of items) {
    if (++count % AT_A_TIME === 0) await new Promise((resolve) => setImmediate(resolve));
    yield item;
  }
}
