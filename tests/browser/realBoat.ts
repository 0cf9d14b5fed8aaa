import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Boat } from './fakeBoat.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const START_LIMIT_MS = 60_000;

export interface RealBoat extends Boat {
  /** Stops the process where it stands: its sockets stay open and say nothing, as behind a dead link. */
  pause(): void;
  goOn(): void;
}

/** The daemon itself on a rehearsed anchorage. */
export const startRealBoat = (...options: string[]): Promise<RealBoat> => startDaemon('rehearse', ...options);

/** The daemon as `npm run build` has left it in dist/, on a port and a data folder of its own. Rejects with what it printed. */
export async function startDaemon(...options: string[]): Promise<RealBoat> {
  if (!existsSync(join(root, 'dist', 'server', 'cli.js')))
    throw new Error('dist/ is not built: run "npm run build" before the browser tests');
  const data = mkdtempSync(join(tmpdir(), 'hawse-real-'));
  const daemon = spawn(process.execPath, ['server/hawse.mjs', ...options, '--port', '0', '--data', data], {
    cwd: root,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
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
    pause: () => void daemon.kill('SIGSTOP'),
    goOn: () => void daemon.kill('SIGCONT'),
    async stop() {
      daemon.kill('SIGCONT');
      daemon.kill('SIGTERM');
      await ended;
      rmSync(data, { recursive: true, force: true });
    },
  };
}
