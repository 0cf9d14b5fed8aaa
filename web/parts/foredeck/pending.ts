import { signal } from '@preact/signals';
import { send } from './sending.ts';

/** Length out that is being stepped to: sent when the hand has rested. Whole metres. */
export const pending = signal<number | undefined>(undefined);

const REST_MS = 900;
const MOST = 999;
let timer: ReturnType<typeof setTimeout> | undefined;

/** Steps from what is pending, else from what is known, else from nothing. */
export function stepOut(from: number | undefined, by: number): void {
  clearTimeout(timer);
  const next = Math.round((pending.value ?? from ?? 0) + by);
  pending.value = Math.max(0, Math.min(MOST, next));
  timer = setTimeout(() => {
    const metres = pending.value;
    pending.value = undefined;
    if (metres !== undefined) void send(`out:${metres}`);
  }, REST_MS);
}

/** A mark stands at the roller: no need to wait. */
export function markAtRoller(metres: number): void {
  clearTimeout(timer);
  pending.value = undefined;
  void send(`out:${Math.round(metres)}`);
}
