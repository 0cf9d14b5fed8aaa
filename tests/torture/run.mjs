// Runs the torture: bundles it and starts it. usage: node tests/torture/run.mjs [CYCLES] [SEED] [SCRIPT]
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const root = fileURLToPath(new URL('../..', import.meta.url));
await build({
  root,
  configFile: false,
  logLevel: 'warn',
  build: {
    ssr: 'tests/torture/torture.ts',
    outDir: '.build/torture',
    target: 'node20',
    minify: false,
    rolldownOptions: { output: { entryFileNames: 'torture.mjs' } },
  },
});
const done = spawnSync(process.execPath, ['.build/torture/torture.mjs', ...process.argv.slice(2)], {
  cwd: root,
  stdio: 'inherit',
});
process.exit(done.status ?? 1);
