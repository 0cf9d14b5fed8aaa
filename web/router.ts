import { signal } from '@preact/signals';

/** Which page is shown. Pages change without a load: a load would lose the sound that a tap has unlocked. */
export const path = signal(location.pathname);

addEventListener('popstate', () => {
  path.value = location.pathname;
});

/** For the click of a link inside the site; leaves clicks alone that ask for a new tab. */
export function follow(event: MouseEvent): void {
  const link = event.currentTarget as HTMLAnchorElement;
  if (event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
  event.preventDefault();
  if (link.pathname !== path.value) history.pushState(null, '', link.pathname);
  path.value = link.pathname;
}
