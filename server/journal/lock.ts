import { link, open, readFile, rm, unlink } from 'node:fs/promises';
import { join } from 'node:path';

/** A data folder is held by one daemon: two would write two watches into one journal. */
export interface Lock {
  /** The daemon that held it last ended without letting go: a power cut, a crash or a kill. */
  wasLeft: boolean;
  /** Nobody can be kept out: the disk takes no file. Why, in words. */
  trouble?: string;
  release(): Promise<void>;
}

/** Somebody else holds the folder. */
export class HeldError extends Error {
  override name = 'ConfigError';
}

/** A process is known by its number and the moment it began: numbers are given out again, above all after a restart of the computer. */
interface Holder {
  pid: number;
  began: string;
}

const FILE = 'lock';
/** A daemon that is on its way out gets so long to let go, milliseconds. */
const PATIENCE_MS = 8000;
const AGAIN_MS = 100;
let tries = 0;

/**
 * Takes the folder `data`, which must exist. Rejects with HeldError when a living process holds it and does not let go within
 * `patience` milliseconds; what a dead one has left is taken over. A disk that is full or read-only is no reason not to watch.
 */
export async function takeLock(data: string, patience = PATIENCE_MS): Promise<Lock> {
  const path = join(data, FILE);
  const me: Holder = { pid: process.pid, began: await beginOf(process.pid) };
  const draft = `${path}.${process.pid}.${++tries}`;
  let wasLeft = false;
  const until = performance.now() + patience;
  try {
    await write(draft, JSON.stringify(me));
    for (;;) {
      // A link that exists is refused, so there is one winner, and nobody sees a lock that is half written.
      if (await done(link(draft, path), 'EEXIST')) break;
      const holder = await read(path);
      if (holder === undefined) continue;
      if (!(await lives(holder))) {
        wasLeft = true;
        await takeAway(path, holder, draft);
      } else if (performance.now() > until) {
        throw new HeldError(
          `another hawse (process ${holder.pid}) keeps its watch in ${data}; stop it, or use another folder (--data).`,
        );
      } else await new Promise((resolve) => setTimeout(resolve, AGAIN_MS));
    }
  } catch (error) {
    if (error instanceof HeldError) throw error;
    return {
      wasLeft,
      trouble: `no other hawse can be kept out of ${data}: ${(error as Error).message}`,
      release: async () => undefined,
    };
  } finally {
    await rm(draft, { force: true }).catch(() => undefined);
  }
  return {
    wasLeft,
    async release() {
      const holder = await read(path).catch(() => undefined);
      if (holder && same(holder, me)) await rm(path, { force: true }).catch(() => undefined);
    },
  };
}

/**
 * Takes the lock of a dead holder away. Of several that find it, one at a time may, by a lock on that very lock; and since only so is it
 * ever taken away, and never comes again, none takes away a living one in its place.
 */
async function takeAway(path: string, dead: Holder, draft: string): Promise<void> {
  const right = `${path}.left.${dead.pid}`;
  if (!(await done(link(draft, right), 'EEXIST'))) {
    const taker = await read(right);
    if (taker && !(await lives(taker))) await rm(right, { force: true });
    return;
  }
  try {
    const now = await read(path);
    if (now && same(now, dead)) await unlink(path);
  } finally {
    await rm(right, { force: true });
  }
}

/** The process that keeps its watch in the folder now; undefined: none does. Rejects when that cannot be read. */
export async function holderOf(data: string): Promise<number | undefined> {
  const holder = await read(join(data, FILE));
  return holder && (await lives(holder)) ? holder.pid : undefined;
}

const same = (a: Holder, b: Holder): boolean => a.pid === b.pid && a.began === b.began;

async function lives({ pid, began }: Holder): Promise<boolean> {
  try {
    process.kill(pid, 0);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ESRCH') return false;
  }
  const now = await beginOf(pid);
  return now === '' || began === '' || now === began;
}

/** When the process began, as the system counts, with the system's own start; empty where there is no such thing to read. */
async function beginOf(pid: number): Promise<string> {
  try {
    const boot = (await readFile('/proc/sys/kernel/random/boot_id', 'utf8')).trim();
    const stat = await readFile(`/proc/${pid}/stat`, 'utf8').catch(() => '');
    // After the name, which may hold anything, in brackets: fields 3 (state) and 22 (start time), proc(5).
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
    if (fields[0] === 'Z' || stat === '') return 'gone';
    return `${boot} ${fields[19]}`;
  } catch {
    return '';
  }
}

/** Undefined when there is none. One that cannot be understood (cut short by a power cut) is nobody's. */
async function read(path: string): Promise<Holder | undefined> {
  const text = await readFile(path, 'utf8').catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return undefined;
    throw error;
  });
  if (text === undefined) return undefined;
  try {
    const { pid, began } = JSON.parse(text) as Holder;
    if (Number.isInteger(pid) && pid > 0 && typeof began === 'string') return { pid, began };
  } catch {}
  return { pid: 2 ** 30, began: 'nobody' };
}

async function write(path: string, text: string): Promise<void> {
  const file = await open(path, 'w', 0o644);
  try {
    await file.writeFile(text);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** False when it failed for the reason that is expected. */
async function done(work: Promise<unknown>, expected: string): Promise<boolean> {
  try {
    await work;
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === expected) return false;
    throw error;
  }
}
