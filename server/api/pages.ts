import { existsSync } from 'node:fs';
import { join, sep } from 'node:path';
import fixed from '@fastify/static';
import type { App } from './app.ts';
import { Problem } from './problem.ts';

/** Paths of the pages; all are the one index.html, whose script shows the page. */
export const PAGES = [
  '/',
  '/watch',
  '/plan',
  '/tide',
  '/check',
  '/logbook',
  '/weigh',
  '/foredeck',
  '/instruments',
  '/phones',
  '/setup',
];

/** The built pages out of `webRoot`. Everybody gets them: they hold nothing of this boat. */
export async function servePages(app: App, webRoot: string): Promise<void> {
  await app.register(fixed, {
    root: webRoot,
    index: false,
    cacheControl: false,
    setHeaders: (reply, path) => {
      // What lies in assets/ has a hash of its content in its name.
      const hashed = path.startsWith(join(webRoot, 'assets') + sep);
      reply.header('cache-control', hashed ? 'public, max-age=31536000, immutable' : 'no-cache');
    },
  });

  const schema = { hide: true } as object;
  for (const path of PAGES) {
    app.get(path, { schema }, (_request, reply) => {
      if (!existsSync(join(webRoot, 'index.html')))
        throw new Problem('no-pages', `There is no index.html in ${webRoot}: run "npm run build".`);
      return reply.sendFile('index.html');
    });
  }
}
