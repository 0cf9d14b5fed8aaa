import type { Said, Simulator } from './simulator.ts';

export interface PlayOptions {
  /** The time now on the listener's timeline, UNIX seconds; it may run faster than the wall clock. */
  now(): number;
  /** Takes one sentence, without line end. */
  line(text: string): void;
  /** Calls `run` every `ms` milliseconds until the answer is called. Default: the process's own timer. */
  every?(ms: number, run: () => void): () => void;
}

const LOOK_MS = 50;
/** Most that is made up for at once, s: after a suspended computer the simulator catches up in bites and lets others run between. */
const BITE = 60;

/**
 * Feeds the sentences of a simulator as the time of the timeline comes, until stopped. It follows the timeline and not its timer,
 * so nothing drifts when the timer is late.
 */
export function playInto(
  simulator: Simulator,
  { now, line, every = everyInterval }: PlayOptions,
): { stop(): Promise<void> } {
  const waiting: Said[] = [];
  const cancel = every(LOOK_MS, () => {
    const due = now();
    const behind = Math.min(due - simulator.truth().at, BITE);
    if (behind > 0) simulator.step(behind);
    waiting.push(...simulator.sentences());
    const later = waiting.findIndex(({ at }) => at > due);
    for (const { text } of waiting.splice(0, later < 0 ? waiting.length : later)) line(text);
  });
  return {
    async stop() {
      cancel();
    },
  };
}

function everyInterval(ms: number, run: () => void): () => void {
  const timer = setInterval(run, ms);
  return () => clearInterval(timer);
}
