import type { Alert } from '../../shared/alerts/alert.ts';
import type { Wanted } from './escalation.ts';

/** What is so at one look. */
export interface Moment {
  /** All alerts that are not normal. */
  alerts: readonly Alert[];
  /** UNIX seconds on the engine's timeline, and what to add for UTC. */
  at: number;
  clockOffset: number;
}

/** One way out. None of its calls waits for the world, except `test` and `stop`. */
export interface Output {
  /** In words: program, device or address. */
  readonly what: string;
  start(): void;
  /** Called a few times a second with all that it has to tell. */
  show(wanted: Wanted, moment: Moment): void;
  /** True while it tells an alert. */
  on(): boolean;
  /** Does for a moment what it would do in an alarm. Resolves to what it did, in words; rejects with what failed. */
  test(moment: Moment): Promise<string>;
  /** Leaves nothing sounding behind. */
  stop(): Promise<void>;
}

/** How an output tells whether its work succeeds. */
export interface Health {
  ok(): void;
  failed(why: string): void;
}

/** A pause that does not keep the process alive. */
export const pause = (ms: number): Promise<void> =>
  new Promise((resolve) => void setTimeout(resolve, ms).unref());

/** Rejects when the work has not ended after `ms`; what the work does then is no longer waited for. */
export async function within<T>(ms: number, work: Promise<T>, why: string): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_resolve, reject) => {
    timer = setTimeout(() => reject(new Error(why)), ms);
  });
  try {
    return await Promise.race([work, late]);
  } finally {
    clearTimeout(timer);
  }
}
