#!/usr/bin/env node
// The `hawse` command: runs the built daemon, and builds it first when this is a source checkout not built yet.
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
refuseOldNode(JSON.parse(readFileSync(join(here, '..', 'package.json'), 'utf8')).engines.node);
const cli = join(here, '..', 'dist', 'server', 'cli.js');
if (!existsSync(cli)) await import('./build.mjs');
await import(pathToFileURL(cli).href);

/** Debian 12 and its like bring Node 18, on which the libraries fail with words that help nobody. `wanted`: ">=20.19". */
function refuseOldNode(wanted) {
  const [major, minor = 0] = wanted
    .replace(/[^\d.]/g, '')
    .split('.')
    .map(Number);
  const [hasMajor, hasMinor] = process.versions.node.split('.').map(Number);
  if (hasMajor > major || (hasMajor === major && hasMinor >= minor)) return;
  process.stderr.write(
    `hawse: needs Node.js ${major}.${minor} or newer; this is ${process.versions.node}. See https://nodejs.org/en/download\n`,
  );
  process.exit(1);
}
