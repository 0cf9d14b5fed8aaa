import { ENDED, type FromAbove, type FromKeeper, SUPERVISED } from './messages.ts';

/** The side of the process that keeps the watch; undefined when there is no process above it. */
export interface Above {
  /** How the process before this one ended, when it did not end well. */
  ended: string | undefined;
  /** Resolves when this one shall end: it was told so, or nobody is above it any more. */
  stop: Promise<string>;
  ready(how: { stallSeconds: number; shout: string[][] }): void;
  /** All is done: an open channel would keep this process from ending. */
  close(): void;
}

const BEAT_MS = 1000;

export function processAbove(): Above | undefined {
  if (!process.env[SUPERVISED] || !process.send) return undefined;
  const say = (message: FromKeeper) => {
    // A channel that is closed is told by `disconnect`.
    if (process.connected) process.send?.(message, undefined, undefined, () => undefined);
  };
  const stop = new Promise<string>((resolve) => {
    process.on('message', (message: FromAbove) => {
      if (message?.type === 'stop') resolve(message.reason);
    });
    // Whoever ends the process above means the watch: its port and its folder must be free for the next.
    const orphaned = () => resolve('the process that looks after it is gone');
    process.once('disconnect', orphaned);
    // It may have been killed while this one was still loading: that was told before anybody listened.
    if (!process.connected) orphaned();
  });
  // It comes from the loop that does everything else: what blocks that loop is heard by its silence.
  setInterval(() => say({ type: 'alive' }), BEAT_MS).unref();
  return {
    ended: process.env[ENDED],
    stop,
    ready: (how) => say({ type: 'ready', ...how }),
    close() {
      if (process.connected) process.disconnect?.();
    },
  };
}
