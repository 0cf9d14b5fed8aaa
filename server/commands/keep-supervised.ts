import { SUPERVISED } from '../supervise/messages.ts';
import { createNotify } from '../supervise/notify.ts';
import { supervise } from '../supervise/supervise.ts';

/**
 * `hawse keep` under the eyes of a small process of its own, which starts it again when it ends or stands still. With --alone, or below
 * such a process already, the watch is kept in this one. Nothing heavy is loaded above.
 */
export async function run(args: string[]): Promise<number> {
  const rest = args.filter((arg) => arg !== '--alone');
  const isAlone = rest.length < args.length || process.env[SUPERVISED] !== undefined;
  const asksOnly = rest.includes('--help') || rest.includes('-h');
  if (isAlone || asksOnly) return (await import('./keep.ts')).run(rest);

  // Who closes the terminal does not end the watch.
  for (const stream of [process.stdout, process.stderr]) {
    stream.removeAllListeners('error');
    stream.on('error', () => undefined);
  }
  const stopped = new Promise<string>((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => resolve(signal));
  });
  const shout = (text: string) => {
    process.stderr.write(`\x07\n*** ${new Date().toISOString().slice(11, 19)} UTC ${text} ***\n`);
  };
  const { NOTIFY_SOCKET: _, WATCHDOG_USEC: __, WATCHDOG_PID: ___, ...env } = process.env;
  return supervise({
    argv: [process.execPath, ...process.execArgv, process.argv[1]!, 'keep', ...rest],
    env,
    notify: createNotify(process.env, (text) => process.stderr.write(`hawse: ${text}\n`)),
    shout,
    stopped,
  });
}
