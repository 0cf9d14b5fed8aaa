import { existsSync } from 'node:fs';
import { join, sep } from 'node:path';
import fixed from '@fastify/static';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type Access, cookieWith } from './access.ts';
import type { App } from './app.ts';
import { HOW_TO_GET_THE_KEY } from './command.ts';
import { Problem } from './problem.ts';

/** Paths of the pages; all are the one index.html, whose script shows the page. */
export const PAGES = ['/', '/watch', '/plan', '/weigh', '/foredeck', '/instruments'];

/** The built pages out of `webRoot`, and the address with the key, which gives the key to the browser that visits it. */
export async function servePages(app: App, webRoot: string, access: Access): Promise<void> {
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
    app.get<{ Querystring: { key?: unknown } }>(path, { schema }, (request, reply) => {
      const { key } = request.query;
      if (key !== undefined) return takeKey(String(key), path, request, reply);
      if (!existsSync(join(webRoot, 'index.html')))
        throw new Problem('no-pages', `There is no index.html in ${webRoot}: run "npm run build".`);
      return reply.sendFile('index.html');
    });
  }

  function takeKey(key: string, path: string, request: FastifyRequest, reply: FastifyReply): FastifyReply {
    switch (access.judge(key, request.raw)) {
      case 'wrong-key':
        throw new Problem('key-wrong', HOW_TO_GET_THE_KEY);
      case 'too-many-keys':
        throw new Problem('too-many-keys', 'Too many wrong keys from this address. Wait a minute.');
      case 'may-command':
        // Redirected, so that the key stays in no history and in no address that is shown around.
        return reply
          .header('set-cookie', cookieWith(key))
          .header('cache-control', 'no-store')
          .redirect(path, 303);
    }
  }
}
