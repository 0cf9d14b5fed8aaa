/** The page's own clockwork: everything that must happen on time hangs on these ticks. */

type Tick = (monotonicMs: number) => void;

/** Ticks come every half second; a hole this long on the wall clock means that the phone has slept or frozen the page. */
const ASLEEP_MS = 6000;

/**
 * Calls `tick` about twice a second, hidden or not, and `woke` first (with both wall-clock times, ms) when the ticks had
 * stopped for longer than 6 s.
 */
export function startHeartbeat(tick: Tick, woke: (fromMs: number, toMs: number) => void): void {
  const worker = new Worker(new URL('./watchdog.ts', import.meta.url), { type: 'module' });
  let last = Date.now();
  worker.onmessage = () => {
    const wall = Date.now();
    if (wall - last > ASLEEP_MS) woke(last, wall);
    last = wall;
    tick(performance.now());
  };
}
