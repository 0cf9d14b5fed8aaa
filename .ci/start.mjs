// Starts hawse as a newcomer would, waits until it is healthy and shows a page, and stops it.
import { spawn } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const root = new URL('..', import.meta.url).pathname;
const child = spawn('npm', ['start', '--silent'], {
  cwd: root,
  env: { ...process.env, TMPDIR: mkdtempSync(join(tmpdir(), 'hawse-ci-')) },
  detached: true,
});
let printed = '';
child.stdout.on('data', (chunk) => {
  printed += chunk;
});
child.stderr.on('data', () => {});
const deadline = Date.now() + 180_000;
let state;
while (Date.now() < deadline) {
  await new Promise((resolve) => setTimeout(resolve, 500));
  try {
    const health = await fetch('http://127.0.0.1:8274/api/v1/health');
    if (health.status === 200) {
      state = await (await fetch('http://127.0.0.1:8274/api/v1/state')).json();
      if (state.watch.distance) break;
    }
  } catch {}
}
const page = await fetch('http://127.0.0.1:8274/')
  .then((answer) => answer.text())
  .catch(() => '');
process.kill(-child.pid, 'SIGTERM');
const ok = state?.simulated && state.watch?.distance && page.includes('<script');
console.log(printed.trim());
console.log(
  ok
    ? `npm start works: ${state.report}`
    : `npm start FAILED: state ${JSON.stringify(state)?.slice(0, 500)}, page ${page.length} bytes`,
);
process.exit(ok ? 0 : 1);
