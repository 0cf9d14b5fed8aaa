import { lastGap } from '../live.ts';
import { read, write } from '../prefs.ts';
import { armed } from './arming.ts';

/**
 * Notes that this page lives, so that the next load of it can say how long it did not: a browser that throws a page away in
 * the background fires no event that could be relied on.
 */
const NOTE_MS = 5000;
/** Shorter than this it was a reload by hand. */
const WORTH_TELLING_MS = 10_000;
let notedMs = Number.NEGATIVE_INFINITY;

const before = Number(read('alive'));
if (armed.peek() && before > 0 && Date.now() - before > WORTH_TELLING_MS) {
  lastGap.value = { from: before, to: Date.now(), why: 'closed' };
}

/** To be called on every heartbeat. */
export function noteAlive(monotonicMs: number): void {
  if (monotonicMs - notedMs < NOTE_MS) return;
  notedMs = monotonicMs;
  write('alive', armed.peek() ? String(Date.now()) : '');
}
