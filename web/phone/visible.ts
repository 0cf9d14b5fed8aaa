import { signal } from '@preact/signals';

/** Whether this page is what the screen shows: not behind another, and the screen not off. */
export const visible = signal(document.visibilityState === 'visible');

document.addEventListener('visibilitychange', () => {
  visible.value = document.visibilityState === 'visible';
});
