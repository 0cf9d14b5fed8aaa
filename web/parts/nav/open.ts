import { signal } from '@preact/signals';

/** Whether the list of all pages and this screen's settings is open. */
export const drawerOpen = signal(false);
