/** The page's own clockwork: everything that must happen on time hangs on these ticks. */

type Tick = (monotonicMs: number) => void;

const TICK_MS = 500;
/** A hole this long on the wall clock means that the phone has slept, or the browser has frozen the page or its script. */
const ASLEEP_MS = 6000;
/** Without the worker's ticks for this long the page's own timer steps in: while in view it is as good. */
const WORKER_LIMIT_MS = 1500;

/**
 * Calls `tick` about twice a second, hidden or not, and `woke` first (with both wall-clock times, ms) when the ticks had
 * stopped for longer than 6 s. Two clocks drive it, a worker's and the page's own, so that the death of one is no silence.
 */
export function startHeartbeat(tick: Tick, woke: (fromMs: number, toMs: number) => void): void {
  let last = Date.now();
  let workerMs = Number.NEGATIVE_INFINITY;
  const beat = () => {
    const wall = Date.now();
    if (wall - last > ASLEEP_MS) woke(last, wall);
    last = wall;
    tick(performance.now());
  };
  setInterval(() => {
    if (performance.now() - workerMs > WORKER_LIMIT_MS) beat();
  }, TICK_MS);
  // What a browser that freezes pages says of its own accord; the hole on the wall clock tells the rest.
  document.addEventListener('resume', beat);
  addEventListener('pageshow', beat);
  try {
    const worker = new Worker(new URL('./watchdog.ts', import.meta.url), { type: 'module' });
    worker.onmessage = () => {
      workerMs = performance.now();
      beat();
    };
  } catch {
    // No worker to be had: the page's own timer is driving already.
  }
}
