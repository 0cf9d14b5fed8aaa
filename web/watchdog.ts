/** A worker whose only work is to tick: browsers slow the timers of a hidden page to one a minute, but not a worker's. */
const TICK_MS = 500;

setInterval(() => postMessage(undefined), TICK_MS);
