import { spawn } from 'node:child_process';

/**
 * Tells systemd how the service is, by its own little program `systemd-notify` (node has no datagram sockets of the unix kind). Without
 * NOTIFY_SOCKET, or without that program, nothing happens: the watch does not depend on it. sd_notify(3).
 */
export interface Notify {
  /** E.g. READY=1, WATCHDOG=1, STOPPING=1, STATUS=…. */
  tell(...states: string[]): Promise<void>;
  /** Milliseconds within which systemd wants to hear WATCHDOG=1; undefined when it does not ask. */
  watchdogMs: number | undefined;
}

export function createNotify(env: NodeJS.ProcessEnv, remark: (text: string) => void): Notify {
  const isAsked = Boolean(env.NOTIFY_SOCKET);
  const micro = Number(env.WATCHDOG_USEC);
  // The variable is inherited by everybody; it is meant for one.
  const isOurs = env.WATCHDOG_PID === undefined || Number(env.WATCHDOG_PID) === process.pid;
  let failed = false;
  return {
    watchdogMs: isAsked && isOurs && micro > 0 ? micro / 1000 : undefined,
    tell(...states) {
      if (!isAsked) return Promise.resolve();
      return new Promise((resolve) => {
        const child = spawn('systemd-notify', states, { env, stdio: 'ignore' });
        const done = (text?: string) => {
          if (text && !failed) remark(`systemd cannot be told: ${text}`);
          failed ||= text !== undefined;
          resolve();
        };
        child.once('error', (error) => done(error.message));
        child.once('exit', (code) => done(code === 0 ? undefined : `systemd-notify ended with ${code}`));
      });
    },
  };
}
