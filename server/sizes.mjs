// What the pages weigh on a slow Wi-Fi, compressed as a browser would get them at best; printed by every build.
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

/** A page that is half there warns of nothing: what must arrive before the first figure, bytes after gzip. */
export const INITIAL_LIMIT = 50 * 1024;

const STATIC_IMPORT = /(?:^|[;}\s])(?:import|export)\s*(?:[\w*{}\s,$]+from)?\s*["']\.\/([\w.-]+\.js)["']/g;

/** Prints what lies in the built pages, and throws when what loads before the first figure is too heavy. */
export function weigh(web) {
  const gz = (path) => gzipSync(readFileSync(path), { level: 9 }).length;
  const index = readFileSync(join(web, 'index.html'), 'utf8');
  const initial = new Set(
    [...index.matchAll(/(?:src|href)="\/(assets\/[^"]+\.js)"/g)].map(([, name]) => name),
  );
  for (const name of initial)
    for (const [, found] of readFileSync(join(web, name), 'utf8').matchAll(STATIC_IMPORT))
      initial.add(`assets/${found}`);
  const names = readdirSync(web, { recursive: true, encoding: 'utf8' }).filter((name) =>
    statSync(join(web, name)).isFile(),
  );
  const kB = (bytes) => `${(bytes / 1024).toFixed(1).padStart(6)} kB`;
  let first = 0;
  for (const name of names.sort()) {
    const bytes = gz(join(web, name));
    if (initial.has(name)) first += bytes;
    console.log(`${kB(bytes)}  ${name}${initial.has(name) ? '  (first)' : ''}`);
  }
  console.log(`${kB(first)}  initial script after gzip, of ${INITIAL_LIMIT / 1024} kB allowed`);
  if (initial.size === 0) throw new Error('index.html loads no script: the sizes cannot be told');
  if (first > INITIAL_LIMIT)
    throw new Error(
      `The script that loads first is ${kB(first).trim()} after gzip; allowed are ${INITIAL_LIMIT / 1024} kB. Load pages or parts late.`,
    );
}
