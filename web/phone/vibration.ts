import { signal } from '@preact/signals';

/** Whether this browser takes orders to vibrate: iPhones never do, and some only say that they do. */
export const vibration = signal<'unknown' | 'taken' | 'absent'>('unknown');

const PATTERN = [400, 200, 400, 200, 400];

export function vibrate(): boolean {
  return navigator.vibrate?.(PATTERN) ?? false;
}

/** From a tap: browsers refuse it before. */
export function askVibration(): void {
  vibration.value = vibrate() ? 'taken' : 'absent';
}
