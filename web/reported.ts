import { signal } from '@preact/signals';

/** Number of the last signal of the foredeck that was truly to be seen on this screen; the connection tells the boat. */
export const signalShown = signal<number | undefined>(undefined);
