import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';

/**
 * Writes sw.js beside index.html: the service worker with the list of what it keeps and a version that is the hash of all
 * that. The same pages give the same worker, byte for byte; a change anywhere gives another version, which browsers notice.
 */
export function serviceWorker(): Plugin {
  const source = fileURLToPath(new URL('./worker.js', import.meta.url));
  const fixed = fileURLToPath(new URL('../public', import.meta.url));
  return {
    name: 'hawse-service-worker',
    apply: 'build',
    enforce: 'post',
    generateBundle(_options, bundle) {
      const hash = createHash('sha256').update(readFileSync(source));
      const paths = ['/'];
      for (const [name, made] of Object.entries(bundle).sort(([a], [b]) => (a < b ? -1 : 1))) {
        hash.update(name).update(made.type === 'chunk' ? made.code : made.source);
        if (name !== 'index.html') paths.push(`/${name}`);
      }
      for (const name of readdirSync(fixed).sort()) {
        hash.update(name).update(readFileSync(join(fixed, name)));
        paths.push(`/${name}`);
      }
      const text = readFileSync(source, 'utf8')
        .replace("'__VERSION__'", JSON.stringify(hash.digest('hex').slice(0, 12)))
        .replace("['__SHELL__']", JSON.stringify(paths));
      this.emitFile({ type: 'asset', fileName: 'sw.js', source: text });
    },
  };
}
