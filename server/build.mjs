// Builds dist/: the daemon with tsc, the pages with vite. With --if-stale it does nothing when dist is newer than
// every source file, so `npm start` and `npm test` are right after a pull and quick otherwise.
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { weigh } from './sizes.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const stamp = join(root, 'dist', 'built');

function newest(path) {
  const info = statSync(path);
  if (!info.isDirectory()) return info.mtimeMs;
  const inside = readdirSync(path).map((name) => newest(join(path, name)));
  return Math.max(info.mtimeMs, ...inside);
}

function isFresh() {
  if (!existsSync(stamp)) return false;
  const built = statSync(stamp).mtimeMs;
  const sources = ['shared', 'server', 'web', 'package.json', 'tsconfig.json'].map((name) =>
    join(root, name),
  );
  return sources.every((path) => newest(path) <= built);
}

function binary(packageName, file) {
  const manifest = createRequire(import.meta.url).resolve(`${packageName}/package.json`);
  return join(dirname(manifest), file);
}

function run(script, ...args) {
  execFileSync(process.execPath, [script, ...args], { cwd: root, stdio: ['ignore', 'inherit', 'inherit'] });
}

/** Builds beside dist/ and swaps at the end: a build that fails leaves the last good one in place. */
function build() {
  const made = join(root, '.build', 'dist');
  rmSync(made, { recursive: true, force: true });
  run(binary('typescript', 'bin/tsc'), '-p', '.', '--outDir', made);
  run(binary('vite', 'bin/vite.js'), 'build', 'web', '--outDir', join(made, 'web'), '--logLevel', 'warn');
  weigh(join(made, 'web'));
  writeFileSync(join(made, 'built'), '');
  rmSync(join(root, 'dist'), { recursive: true, force: true });
  renameSync(made, join(root, 'dist'));
}

if (!(process.argv.includes('--if-stale') && isFresh())) build();
