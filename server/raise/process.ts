import { type ChildProcess, spawn } from 'node:child_process';
import { access, constants } from 'node:fs/promises';
import { delimiter, join } from 'node:path';
import { pause } from './output.ts';
import type { Argv } from './outputs.ts';

/** How a child ended, in words; undefined: it did what it should, exit code 0. */
export type Fault = string | undefined;

export interface Child {
  /** Resolves when it has ended or could not be started. */
  ended: Promise<Fault>;
  /** SIGTERM to it and all that it has started, SIGKILL after `graceMs`. Resolves to false when even that did not end it. */
  end(graceMs: number): Promise<boolean>;
  kill(): void;
}

const STDERR_KEPT = 300;
/** A killed process that is still there after this hangs in the kernel. */
const KILL_MS = 2000;

/** Starts a program without a shell, in a process group of its own. Never throws. */
export function startChild([program, ...args]: Argv, env: Readonly<Record<string, string>>): Child {
  let said = '';
  let child: ChildProcess | undefined;
  const ended = new Promise<Fault>((resolve) => {
    try {
      child = spawn(program, args, {
        detached: true,
        stdio: ['ignore', 'ignore', 'pipe'],
        env: { ...process.env, ...env },
      });
    } catch (error) {
      resolve((error as Error).message);
      return;
    }
    child.stderr?.on('data', (chunk: Buffer) => {
      said = (said + chunk.toString('utf8')).slice(-STDERR_KEPT);
    });
    child.stderr?.on('error', () => undefined);
    child.once('error', (error: NodeJS.ErrnoException) => resolve(describe(program, error)));
    // Not "close": a grandchild that keeps stderr open would hide the end.
    child.once('exit', (code, signal) => {
      const words = said.trim().split('\n').at(-1);
      const tail = words ? `: ${words}` : '';
      if (code === 0) resolve(undefined);
      else
        resolve(signal ? `${program} was ended by ${signal}${tail}` : `${program} ended with ${code}${tail}`);
      child?.stderr?.destroy();
    });
  });
  let isOver = false;
  void ended.then(() => {
    isOver = true;
  });

  function signal(name: 'SIGTERM' | 'SIGKILL'): void {
    const pid = child?.pid;
    if (pid === undefined) return;
    try {
      process.kill(-pid, name);
    } catch {
      // The group is gone.
    }
  }

  return {
    ended,
    kill: () => signal('SIGKILL'),
    async end(graceMs) {
      signal('SIGTERM');
      await Promise.race([ended, pause(graceMs)]);
      // What the program has started may outlive it.
      signal('SIGKILL');
      await Promise.race([ended, pause(KILL_MS)]);
      return isOver;
    },
  };
}

function describe(program: string, error: NodeJS.ErrnoException): string {
  switch (error.code) {
    case 'ENOENT':
      return `there is no program ${program}`;
    case 'EACCES':
      return `${program} may not be run by this user`;
    default:
      return `${program} cannot be run: ${error.message}`;
  }
}

/** Whether a program can be run, looked for as the system does; undefined: it can. */
export async function findProgram(program: string): Promise<Fault> {
  const folders = program.includes('/') ? [''] : (process.env.PATH ?? '').split(delimiter);
  let fault: NodeJS.ErrnoException = Object.assign(new Error(), { code: 'ENOENT' });
  for (const folder of folders) {
    try {
      await access(folder === '' ? program : join(folder, program), constants.X_OK);
      return undefined;
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'ENOENT') fault = error as NodeJS.ErrnoException;
    }
  }
  return describe(program, fault);
}
