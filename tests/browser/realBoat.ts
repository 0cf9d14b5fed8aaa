import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Boat } from './fakeBoat.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const START_LIMIT_MS = 60_000;

/** The daemon itself on a rehearsed anchorage, as `npm run build` has left it in dist/. Rejects with what it printed. */
export async function startRealBoat(...options: string[]): Promise<Boat> {
  if (!existsSync(join(root, 'dist', 'server', 'cli.js')))
    throw new Error('dist/ is not built: run "npm run build" before the browser tests');
  const data = mkdtempSync(join(tmpdir(), 'hawse-real-'));
  const daemon = spawn(
    process.execPath,
    ['server/hawse.mjs', 'rehearse', '--port', '0', '--data', data, ...options],
    { cwd: root, stdio: ['ignore', 'pipe', 'pipe'] },
  );
  const ended = new Promise<void>((resolve) => daemon.once('exit', () => resolve()));
  let printed = '';
  const url = await new Promise<string>((resolve, reject) => {
    const timer = setTimeout(
      () => reject(new Error(`no address within a minute: ${printed}`)),
      START_LIMIT_MS,
    );
    const read = (chunk: Buffer) => {
      printed += chunk;
      const address = /http:\/\/localhost:\d+/.exec(printed)?.[0];
      if (!address) return;
      clearTimeout(timer);
      resolve(address);
    };
    daemon.stdout.on('data', read);
    daemon.stderr.on('data', read);
    daemon.once('exit', (code) => reject(new Error(`the daemon ended with ${code}: ${printed}`)));
  });
  return {
    url,
    async stop() {
      daemon.kill('SIGTERM');
      await ended;
      rmSync(data, { recursive: true, force: true });
    },
  };
}
