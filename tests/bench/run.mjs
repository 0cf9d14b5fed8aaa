// Runs a benchmark written in TypeScript: bundles it (so that plain node runs what the daemon would run) and starts it.
// usage: node tests/bench/run.mjs [NAME] (tests/bench/NAME.bench.ts, default "speed"; with a slash: tests/NAME.ts) [arguments]
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const root = fileURLToPath(new URL('../..', import.meta.url));
const asked = process.argv[2] ?? 'speed';
const source = asked.includes('/') ? `tests/${asked}.ts` : `tests/bench/${asked}.bench.ts`;
const name = asked.split('/').at(-1);
await build({
  root,
  configFile: false,
  logLevel: 'warn',
  build: {
    ssr: source,
    outDir: '.build/bench',
    emptyOutDir: false,
    target: 'node20',
    minify: false,
    rolldownOptions: { output: { entryFileNames: `${name}.mjs` } },
  },
});
const done = spawnSync(
  process.execPath,
  ['--expose-gc', `.build/bench/${name}.mjs`, ...process.argv.slice(3)],
  {
    cwd: root,
    stdio: 'inherit',
  },
);
process.exit(done.status ?? 1);
