// Runs the soak: bundles it and starts it. usage: node tests/soak/run.mjs [DAYS] [HOURS A DAY] [INPUTS], or real MINUTES
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const root = fileURLToPath(new URL('../..', import.meta.url));
await build({
  root,
  configFile: false,
  logLevel: 'warn',
  build: {
    ssr: 'tests/soak/soak.ts',
    outDir: '.build/soak',
    target: 'node20',
    minify: false,
    rolldownOptions: { output: { entryFileNames: 'soak.mjs' } },
  },
});
const done = spawnSync(process.execPath, ['--expose-gc', '.build/soak/soak.mjs', ...process.argv.slice(2)], {
  cwd: root,
  stdio: 'inherit',
});
process.exit(done.status ?? 1);
