import { computed, effect, signal } from '@preact/signals';
import type { WakeLock } from '../../shared/phone.ts';
import { read, write } from '../prefs.ts';
import { visible } from './visible.ts';

/** Keeps the screen on where the browser allows it: a phone that locks itself goes deaf and dumb. */

/** `absent`: no secure context (plain http from another machine), or an old browser. */
const lock = signal<'off' | 'held' | 'lost' | 'absent'>('off');
/** A person says that this screen is set to never lock; remembered, as the setting is. */
export const staysOn = signal(read('stays-on') === 'yes');
effect(() => write('stays-on', staysOn.value ? 'yes' : 'no'));

export const wakeLock = computed<WakeLock>(() => {
  if (lock.value === 'held') return 'held';
  if (staysOn.value) return 'as-told';
  return lock.value === 'absent' || !('wakeLock' in navigator) ? 'absent' : 'lost';
});

const RETRY_MS = 5000;
let wanted = false;
let asking = false;
let held: WakeLockSentinel | undefined;
let askedMs = Number.NEGATIVE_INFINITY;

export function keepAwake(): void {
  wanted = true;
  void ask();
}

export function letSleep(): void {
  wanted = false;
  void held?.release().catch(() => {});
}

/** To be called on every heartbeat: a lock that the system took away (low battery) is asked for again and again. */
export function tendWakeLock(monotonicMs: number): void {
  if (wanted && visible.peek() && lock.peek() !== 'held' && monotonicMs - askedMs > RETRY_MS) void ask();
}

async function ask(): Promise<void> {
  if (asking || lock.peek() === 'held') return;
  if (!('wakeLock' in navigator)) {
    lock.value = 'absent';
    return;
  }
  asking = true;
  askedMs = performance.now();
  try {
    const got = await navigator.wakeLock.request('screen');
    held = got;
    // A released lock is dead: it must be asked for anew.
    got.addEventListener('release', () => {
      if (held !== got) return;
      held = undefined;
      lock.value = 'lost';
    });
    lock.value = got.released ? 'lost' : 'held';
  } catch {
    lock.value = 'lost';
  } finally {
    asking = false;
  }
  if (!wanted) letSleep();
}

effect(() => {
  // A hidden page always loses it.
  if (visible.value && wanted) void ask();
});
