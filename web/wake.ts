import { signal } from '@preact/signals';

/** Keeps the screen awake where the browser allows it: a phone that locks itself goes deaf and dumb. */

export type Wake = 'off' | 'held' | 'refused' | 'absent';

export const wake = signal<Wake>('off');
let wanted = false;

/** Asks for the lock now and again whenever the page comes back into view: a hidden page always loses it. */
export function keepAwake(): void {
  wanted = true;
  void ask();
}

async function ask(): Promise<void> {
  // Absent on plain http from another machine (no secure context) and on old phones.
  if (!('wakeLock' in navigator)) {
    wake.value = 'absent';
    return;
  }
  try {
    const lock = await navigator.wakeLock.request('screen');
    wake.value = 'held';
    lock.addEventListener('release', () => {
      wake.value = 'refused';
    });
  } catch {
    wake.value = 'refused';
  }
}

document.addEventListener('visibilitychange', () => {
  if (wanted && document.visibilityState === 'visible' && wake.value !== 'held') void ask();
});
