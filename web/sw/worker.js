/**
 * The service worker: keeps the shell of the pages (index.html, script, styles, icons), so that a phone can open them when the
 * boat's daemon is down and be told so. It keeps nothing that the boat says: no answer of /api and no message of /live ever
 * passes through its store, so an old figure cannot come out of it. Plain JavaScript; the build writes the two constants.
 */
const VERSION = '__VERSION__';
const SHELL = ['__SHELL__'];
const STORE = `hawse-shell-${VERSION}`;
/** Longer than this a page that is being opened does not wait for a boat that may be dead, ms. */
const PATIENCE = 3000;

self.addEventListener('install', (event) => {
  // Past the browser's own cache: what is kept must be what belongs to this version.
  const fresh = SHELL.map((path) => new Request(path, { cache: 'reload' }));
  event.waitUntil(caches.open(STORE).then((store) => store.addAll(fresh)));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    (async () => {
      for (const name of await caches.keys())
        if (name.startsWith('hawse-shell-') && name !== STORE) await caches.delete(name);
      await self.clients.claim();
    })(),
  );
});

// A new version waits until a person takes it over: a load of the page would lock the sound of a phone that is armed.
self.addEventListener('message', (event) => {
  if (event.data === 'take over') self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== self.location.origin) return;
  if (request.mode === 'navigate') {
    if (!url.pathname.startsWith('/api/') && !url.search.includes('key=')) event.respondWith(open(request));
  } else if (SHELL.includes(url.pathname)) event.respondWith(kept(url.pathname, request));
});

/** The boat's own page when she answers, else the kept shell, whose script then says that she does not. */
async function open(request) {
  const giveUp = new AbortController();
  const timer = setTimeout(() => giveUp.abort(), PATIENCE);
  try {
    return await fetch(request, { signal: giveUp.signal });
  } catch {
    return kept('/', request);
  } finally {
    clearTimeout(timer);
  }
}

async function kept(path, request) {
  const store = await caches.open(STORE);
  return (await store.match(path)) ?? fetch(request);
}
