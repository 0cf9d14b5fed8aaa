import { fileURLToPath } from 'node:url';
import { pino } from 'pino';
import pretty from 'pino-pretty';
import { invitation } from '../access/invite.ts';
import { openAccess } from '../access/open.ts';
import { pairingAddress } from '../api/addresses.ts';
import type { Config } from '../config/schema.ts';
import { type Daemon, type DaemonOptions, startDaemon } from '../daemon.ts';
import { processAbove } from '../supervise/keeper-side.ts';
import { trustInvitation } from '../tls/invite.ts';

type Serve = Omit<DaemonOptions, 'server' | 'log'> & {
  server: Config['server'];
  supervise?: Config['supervise'];
  started?: (daemon: Daemon) => void;
};

/** Runs the daemon until a signal ends it; prints the addresses. Resolves to the exit code. */
export async function serve(options: Serve): Promise<number> {
  const log = pino({ level: process.env.HAWSE_LOG ?? 'info', base: null }, logStream());
  const above = processAbove();
  const stopped = new Promise<string>((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => resolve(signal));
    void above?.stop.then(resolve);
  });
  const { look, thisComputer } = options.server.access;
  const { keys, pairing, openAtStart } = openAccess(options.data, {
    now: () => Date.now() / 1000,
    note: (text) => log.warn(text),
  });
  const webRoot = fileURLToPath(new URL('../../web/', import.meta.url));
  const daemon = await startDaemon({
    ...options,
    log,
    ...(above?.ended ? { ended: above.ended } : {}),
    server: { ...options.server, access: { look, thisComputer, keys, pairing }, webRoot },
  }).catch((error) => {
    above?.close();
    throw error;
  });
  const kind = options.simulated ? `SIMULATED anchorage "${options.simulated}"` : 'Anchor watch';
  process.stdout.write(`${kind}. Open on a phone on the boat's network, or here:\n`);
  for (const address of daemon.addresses) process.stdout.write(`  ${address}\n`);
  if (daemon.trust) process.stdout.write(trustInvitation(daemon.trust, process.stdout.isTTY));
  const invited = openAtStart(thisComputer === 'command');
  process.stdout.write(
    invited
      ? invitation(
          invited,
          daemon.outside.map((address) => pairingAddress(address, invited.code)),
        )
      : 'To let another phone command: hawse pair, or the page "Phones".\n',
  );
  process.stdout.write(
    'hawse adds to an anchor watch kept by people; it replaces none. Stop it with Ctrl-C.\n',
  );
  keepOnThrough((error) => daemon.met('process', error));
  const { stallSeconds = 10, run: shout = [] } = options.supervise ?? {};
  above?.ready({ stallSeconds, shout });
  options.started?.(daemon);
  const reason = await stopped;
  await daemon.stop(`the daemon was stopped (${reason})`);
  above?.close();
  return 0;
}

/** From here on somebody may sleep by it: no exception, no terminal that was closed ends the watch. */
function keepOnThrough(met: (error: unknown) => void): void {
  process.on('uncaughtException', met);
  process.on('unhandledRejection', met);
  process.on('SIGHUP', () => undefined);
  for (const stream of [process.stdout, process.stderr]) {
    stream.removeAllListeners('error');
    stream.on('error', () => undefined);
  }
}

function logStream() {
  return process.stderr.isTTY
    ? pretty({ destination: 2, sync: true })
    : pino.destination({ dest: 2, sync: true });
}
