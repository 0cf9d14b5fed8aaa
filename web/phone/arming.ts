import { effect, signal } from '@preact/signals';
import { read, write } from '../prefs.ts';
import { sound, switchOn, unlock } from '../sound.ts';
import { askVibration } from './vibration.ts';
import { keepAwake, letSleep } from './wake.ts';

/**
 * Arming: one act by which a person makes this device one that wakes them. It counts as armed once they have said that they
 * heard the alarm, since only ears know about volume, mute switches and Bluetooth; and until they disarm it, whatever the
 * browser does meanwhile.
 */

/** Kept over a reload: a browser that throws the page away at night must not make it forget that somebody counts on it. */
export const armed = signal(read('armed') === 'yes');
effect(() => write('armed', armed.value ? 'yes' : 'no'));
// Another tab of this browser has armed or disarmed it.
window.addEventListener('storage', ({ key, newValue }) => {
  if (key === 'hawse.armed') armed.value = newValue === 'yes';
});

/** Where the act stands: nothing going on; the alarm was played and waits for a yes; it was not heard. */
export const arming = signal<'idle' | 'asked' | 'unheard'>('idle');

/** To be called from a tap: unlocks the sound, keeps the screen on, vibrates, plays the real alarm, and asks. */
export function arm(): void {
  void switchOn();
  keepAwake();
  askVibration();
  arming.value = 'asked';
}

export function heardIt(): void {
  arming.value = 'idle';
  armed.value = true;
}

export function heardNothing(): void {
  arming.value = 'unheard';
}

export function disarm(): void {
  armed.value = false;
  arming.value = 'idle';
  letSleep();
}

/** An armed page that lost its sound (a reload, a call) takes the next touch anywhere as the one that it needs. */
function mend(): void {
  if (!armed.peek()) return;
  if (sound.peek() !== 'running') void unlock();
  keepAwake();
}
for (const touch of ['pointerup', 'keydown']) addEventListener(touch, mend, { capture: true, passive: true });

if (armed.peek()) keepAwake();
