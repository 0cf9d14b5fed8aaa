import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import type { State } from '../../shared/state.ts';

/** The whole `hawse keep`, in processes of its own, to be ill-treated. */
export interface Victim {
  /** The process that was started. */
  pid: number;
  child: ChildProcess;
  /** Everything that it wrote to stderr. */
  errors(): string;
  gone: Promise<unknown>;
}

export interface Ground {
  /** Script of the `hawse` command. */
  script: string;
  /** Folder of hawse.yaml, and the data folder. */
  home: string;
  data: string;
  port: number;
}

export async function freePort(): Promise<number> {
  const probe = createServer();
  await new Promise<void>((resolve) => probe.listen(0, '127.0.0.1', resolve));
  const { port } = probe.address() as { port: number };
  await new Promise<void>((resolve) => probe.close(() => resolve()));
  return port;
}

export function layOut(ground: Ground, boatPort: number): void {
  writeFileSync(
    join(ground.home, 'hawse.yaml'),
    `boat: {name: Torture, length: 12, draft: 1.9, antenna: {aftOfRoller: 9}}
instruments: [{tcp: '127.0.0.1:${boatPort}', id: gw}]
server: {port: ${ground.port}, host: 127.0.0.1}
journal: {leastFree: 20 MB}
`,
  );
}

export function start({ script, home, data }: Ground, supervised: boolean): Victim {
  const more = supervised ? [] : ['--alone'];
  const child = spawn(process.execPath, [script, 'keep', '--data', data, ...more], {
    cwd: home,
    stdio: ['ignore', 'ignore', 'pipe'],
    env: { ...process.env, HAWSE_LOG: 'warn' },
  });
  let errors = '';
  child.stderr.on('data', (text) => {
    errors += text;
  });
  return { pid: child.pid!, child, errors: () => errors, gone: once(child, 'exit') };
}

export interface Reply {
  status: number;
  body: unknown;
}

/** Undefined when there was no answer: nothing is known then. */
export async function ask(
  { port }: Ground,
  path: string,
  method = 'GET',
  body?: unknown,
): Promise<Reply | undefined> {
  try {
    const answer = await fetch(`http://127.0.0.1:${port}/api/v1${path}`, {
      method,
      signal: AbortSignal.timeout(20_000),
      ...(body === undefined
        ? {}
        : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
    });
    return { status: answer.status, body: await answer.json() };
  } catch {
    return undefined;
  }
}

export const wait = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

/** Waits until the state is as wanted; undefined when the victim ended or never came to it. */
export async function until(
  ground: Ground,
  victim: Victim,
  holds: (state: State) => boolean,
  patienceMs = 120_000,
): Promise<State | undefined> {
  const end = performance.now() + patienceMs;
  while (performance.now() < end && victim.child.exitCode === null && victim.child.signalCode === null) {
    const reply = await ask(ground, '/state');
    if (reply?.status === 200 && holds(reply.body as State)) return reply.body as State;
    await wait(20);
  }
  return undefined;
}
