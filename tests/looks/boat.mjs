// A rehearsed boat of its own, for whatever looks at the pages from outside: dist/ as built, a port and a data folder of its own.
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../..', import.meta.url));

/** Starts `hawse rehearse` with these arguments; resolves with its address once it answers. */
export async function rehearse(...args) {
  const data = mkdtempSync(join(tmpdir(), 'hawse-looks-'));
  const daemon = spawn(
    process.execPath,
    [join(root, 'server/hawse.mjs'), 'rehearse', ...args, '--port', '0', '--data', data],
    { cwd: data, stdio: ['ignore', 'pipe', 'pipe'] },
  );
  const ended = new Promise((resolve) => daemon.once('exit', resolve));
  let printed = '';
  const url = await new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error(`no address within a minute: ${printed}`)), 60_000);
    const read = (chunk) => {
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
