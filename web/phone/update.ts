import { signal } from '@preact/signals';

/**
 * The service worker: opens the pages when the boat's daemon is down. Only in a secure context; elsewhere the pages do without.
 * A newer version waits until a person takes it over, since a load locks the sound again.
 */

export const updateReady = signal(false);
/** Name of the error that kept the pages from being kept, e.g. SecurityError for a certificate that is not trusted. */
export const shellTrouble = signal<string | undefined>(undefined);
let registration: ServiceWorkerRegistration | undefined;

export async function keepShell(): Promise<void> {
  if (!('serviceWorker' in navigator)) return;
  try {
    const made = await navigator.serviceWorker.register('/sw.js');
    registration = made;
    look();
    made.addEventListener('updatefound', () => made.installing?.addEventListener('statechange', look));
  } catch (error) {
    // A certificate that was only clicked through, private browsing, a full disk: the pages work, but not without the daemon.
    shellTrouble.value = (error as Error).name;
    console.warn('the pages cannot be kept for when the daemon is down', error);
  }
}

/** The first worker of all is no update. */
function look(): void {
  updateReady.value = Boolean(registration?.waiting && navigator.serviceWorker.controller);
}

export function takeOver(): void {
  navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
  registration?.waiting?.postMessage('take over');
}
