#!/usr/bin/env node
// The `hawse` command: runs the built daemon, and builds it first when this is a source checkout not built yet.
import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const cli = join(here, '..', 'dist', 'server', 'cli.js');
if (!existsSync(cli)) await import('./build.mjs');
await import(pathToFileURL(cli).href);
