import { type ChildProcess, spawn } from 'node:child_process';
import { ENDED, type FromAbove, type FromKeeper, SUPERVISED } from './messages.ts';
import type { Notify } from './notify.ts';

/** Limits of patience, milliseconds; our choice. */
export interface Patience {
  /** The keeper may be silent for so long until it tells its own limit. */
  stallMs: number;
  /** From its start until it is ready: a long journal may have to be stepped through. */
  startMs: number;
  /** From the order to stop until it is killed. */
  stopMs: number;
  /** Until it is started again: the first time, and at most. */
  againMs: number;
  againMostMs: number;
  /** systemd hears nothing more after so long without a keeper that is well: then it starts all anew. */
  hopelessMs: number;
}

export const PATIENCE: Patience = {
  stallMs: 10_000,
  startMs: 120_000,
  stopMs: 20_000,
  againMs: 250,
  againMostMs: 30_000,
  hopelessMs: 300_000,
};

export interface SupervisePorts {
  /** Command line of the keeper. */
  argv: readonly [string, ...string[]];
  env: NodeJS.ProcessEnv;
  notify: Notify;
  /** Writes to whoever looks, loudly. */
  shout(text: string): void;
  /** Resolves when all shall end, with the reason. */
  stopped: Promise<string>;
  patience?: Patience;
}

const LOOK_MS = 250;

/**
 * Keeps a process that keeps the watch: starts it, hears its heartbeat, and when it has ended or its loop stands still says so, loudly,
 * kills it and starts another. Resolves to the exit code when it was stopped, or when the first one never came up (bad config, no port).
 */
export async function supervise({
  argv,
  env,
  notify,
  shout,
  stopped,
  patience = PATIENCE,
}: SupervisePorts): Promise<number> {
  let isStopping = false;
  let wasEverReady = false;
  let failures = 0;
  let ended: string | undefined;
  let commands: string[][] = [];
  let keeper: ChildProcess | undefined;
  let wakeUp = () => {};
  let lastWell = performance.now();

  void stopped.then((reason) => {
    isStopping = true;
    wakeUp();
    void notify.tell('STOPPING=1');
    const message: FromAbove = { type: 'stop', reason };
    if (keeper?.connected) keeper.send(message, () => undefined);
    else keeper?.kill('SIGTERM');
    const late = keeper;
    setTimeout(() => {
      if (!late || late.exitCode !== null || late.signalCode !== null) return;
      shout('hawse does not end in time and is killed.');
      late.kill('SIGKILL');
    }, patience.stopMs).unref();
  });

  const watchdog =
    notify.watchdogMs &&
    setInterval(() => {
      if (performance.now() - lastWell < patience.hopelessMs) void notify.tell('WATCHDOG=1');
    }, notify.watchdogMs / 3);

  function alarm(text: string): void {
    shout(text);
    for (const [program, ...args] of commands) {
      if (program === undefined) continue;
      const child = spawn(program, args, {
        stdio: 'ignore',
        detached: true,
        env: { ...env, HAWSE_TEXT: text },
      });
      child.once('error', (error) => shout(`${program} cannot be run: ${error.message}`));
      child.unref();
    }
  }

  /** Runs one keeper until it ends; tells its exit code, and how it ended in words. */
  function run(): Promise<{ code: number; how: string }> {
    return new Promise((resolve) => {
      const [program, ...args] = argv;
      const child = spawn(program, args, {
        stdio: ['inherit', 'inherit', 'inherit', 'ipc'],
        env: { ...env, [SUPERVISED]: '1', ...(ended === undefined ? {} : { [ENDED]: ended }) },
      });
      keeper = child;
      let wasReady = false;
      let limit = patience.startMs;
      let heard = performance.now();
      let looked = heard;
      let how = '';
      const looker = setInterval(() => {
        const now = performance.now();
        // When this process stood still too, it was the computer: nobody is to blame for that silence.
        if (now - looked > 4 * LOOK_MS) heard = Math.max(heard, now - limit / 2);
        looked = now;
        if (isStopping || how || now - heard <= limit) return;
        how = `it stood still for ${Math.round((now - heard) / 1000)} s and was killed`;
        alarm(`hawse stands still: nobody watches. It is killed and started again.`);
        child.kill('SIGKILL');
      }, LOOK_MS);
      child.on('message', (message: FromKeeper) => {
        heard = performance.now();
        if (message.type === 'ready') {
          wasReady = wasEverReady = true;
          limit = message.stallSeconds * 1000;
          commands = message.shout;
          void notify.tell('READY=1', 'STATUS=The anchor watch is kept.');
        }
        if (wasReady) lastWell = heard;
      });
      const done = (code: number, words: string) => {
        clearInterval(looker);
        keeper = undefined;
        resolve({ code, how: how || words });
      };
      child.once('error', (error) => done(1, `it could not be started: ${error.message}`));
      child.once('exit', (code, signal) =>
        done(code ?? 1, `it ended by itself (${signal ?? `exit code ${code}`})`),
      );
    });
  }

  try {
    for (;;) {
      const begun = performance.now();
      const { code, how } = await run();
      if (isStopping || !wasEverReady) return code;
      failures = performance.now() - begun > 60_000 ? 0 : failures + 1;
      ended = how;
      const pause = Math.min(patience.againMs * 2 ** Math.max(0, failures - 1), patience.againMostMs);
      if (!how.includes('was killed')) alarm(`hawse has ended: ${how}. Nobody watches until it is up again.`);
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, pause);
        wakeUp = () => {
          clearTimeout(timer);
          resolve();
        };
      });
      if (isStopping) return 0;
    }
  } finally {
    if (watchdog) clearInterval(watchdog);
  }
}
