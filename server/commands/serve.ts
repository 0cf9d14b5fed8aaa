import { randomBytes } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { pino } from 'pino';
import pretty from 'pino-pretty';
import { type Daemon, type DaemonOptions, startDaemon } from '../daemon.ts';

type Serve = Omit<DaemonOptions, 'server' | 'log'> & {
  server: { port: number; host: string; names: string[] };
  started?: (daemon: Daemon) => void;
};

/** Runs the daemon until a signal ends it; prints the addresses. Resolves to the exit code. */
export async function serve(options: Serve): Promise<number> {
  const log = pino({ level: process.env.HAWSE_LOG ?? 'info', base: null }, logStream());
  const stopped = new Promise<string>((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve(signal));
  });
  const key = boatKey(options.data);
  const webRoot = fileURLToPath(new URL('../../web/', import.meta.url));
  const daemon = await startDaemon({ ...options, log, server: { ...options.server, key, webRoot } });
  const kind = options.simulated ? `SIMULATED anchorage "${options.simulated}"` : 'Anchor watch';
  process.stdout.write(`${kind}. Open on a phone on the boat's network, or here:\n`);
  for (const address of daemon.addresses) process.stdout.write(`  ${address}\n`);
  process.stdout.write(
    'hawse adds to an anchor watch kept by people; it replaces none. Stop it with Ctrl-C.\n',
  );
  options.started?.(daemon);
  const reason = await stopped;
  await daemon.stop(`the daemon was stopped (${reason})`);
  return 0;
}

function logStream() {
  return process.stderr.isTTY
    ? pretty({ destination: 2, sync: true })
    : pino.destination({ dest: 2, sync: true });
}

/** The boat's key, made at first start (or when a power cut left an empty file): who bears it may command from another machine. */
function boatKey(data: string): string {
  const file = join(data, 'key');
  mkdirSync(data, { recursive: true });
  const found = existsSync(file) ? readFileSync(file, 'utf8').trim() : '';
  if (found) return found;
  const key = randomBytes(9).toString('base64url');
  writeFileSync(file, `${key}\n`, { mode: 0o600, flush: true });
  return key;
}
