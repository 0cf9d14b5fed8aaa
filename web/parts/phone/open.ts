import { signal } from '@preact/signals';

/** Whether the details of this device as an alarm are unfolded. */
export const detailsOpen = signal(false);
