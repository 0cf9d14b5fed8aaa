import { signal } from '@preact/signals';

/** Which night is open, as the address says it: so that a reload, a bookmark and "back" find it again. */

const inAddress = (): string | undefined => new URLSearchParams(location.search).get('night') ?? undefined;

export const wanted = signal(inAddress());

/** The address may have changed while another page was shown. */
export function readAddress(): void {
  wanted.value = inAddress();
}

addEventListener('popstate', readAddress);

export function openInAddress(id: string | undefined): void {
  const search = id === undefined ? '' : `?night=${encodeURIComponent(id)}`;
  if (location.search !== search) history.pushState(null, '', `/logbook${search}`);
  wanted.value = id;
}
