/** The page's own clockwork: everything that must happen on time hangs on these ticks. */

type Tick = (monotonicMs: number) => void;

const TICK_MS = 500;
/** A hole this long on the wall clock means that the phone has slept or the browser has frozen the page. */
const ASLEEP_MS = 6000;

/**
 * Calls `tick` about twice a second, hidden or not, and `woke` first (with both wall-clock times, ms) when the ticks had
 * stopped for longer than 6 s.
 */
export function startHeartbeat(tick: Tick, woke: (fromMs: number, toMs: number) => void): void {
  let last = Date.now();
  const beat = () => {
    const wall = Date.now();
    if (wall - last > ASLEEP_MS) woke(last, wall);
    last = wall;
    tick(performance.now());
  };
  // Without the worker's ticks (its file could not be had) the page's own timer is still right while it is in view.
  const beatWithoutWorker = () => setInterval(beat, TICK_MS);
  try {
    const worker = new Worker(new URL('./watchdog.ts', import.meta.url), { type: 'module' });
    worker.onmessage = beat;
    worker.onerror = beatWithoutWorker;
  } catch {
    beatWithoutWorker();
  }
}
