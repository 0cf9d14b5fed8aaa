import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describeDiskFault, hostDisk } from './disk.ts';

/**
 * Which form the data folder has: journal, checkpoints, nights, keys. Raised by one when something that an older hawse would misread or
 * put aside as damaged is written there for the first time (a new kind of act, a member that must not be passed over). A new member that
 * an older one may pass over is no new form.
 *
 * 0: folders without the file, of hawse 0.1.0 before it was introduced; 1: the same with the file.
 */
export const FORMAT = 1;
const FILE = 'format.json';

/** A folder that this hawse must not touch; the message says who wrote it and what to do. */
export class FormatError extends Error {
  override name = 'ConfigError';
}

/** Brings a folder of the form that is its key to the next one. Each must be safe to be cut off and begun again. */
type Migrations = Readonly<Record<number, (data: string) => Promise<void>>>;
const MIGRATIONS: Migrations = {
  // Nothing in it differs: from here on it says what it is.
  0: async () => undefined,
};

/**
 * The form of the folder `data`: 0 when it does not say (also an empty or missing folder). Rejects with FormatError when it was written
 * by a newer hawse than knows `known`, or says what nobody understands.
 */
export async function formatOf(data: string, known = FORMAT): Promise<number> {
  const path = join(data, FILE);
  const text = await readFile(path, 'utf8').catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT' || error.code === 'ENOTDIR') return undefined;
    throw error;
  });
  if (text === undefined) return 0;
  const told = understood(text);
  // Replaced whole, so it is never half written: what is damaged was damaged by the disk, and says nothing about the rest.
  if (told === undefined) return 0;
  if (told.format > known)
    throw new FormatError(
      `${data} was written by a newer hawse${told.by ? ` (${told.by})` : ''}: its form is ${told.format}, this hawse knows up to ${known}. Nothing was touched. Start the newer one, or use another folder (--data).`,
    );
  return told.format;
}

function understood(text: string): { format: number; by?: string } | undefined {
  try {
    const { format, writtenBy } = JSON.parse(text) as { format?: unknown; writtenBy?: unknown };
    if (typeof format !== 'number' || !Number.isInteger(format) || format < 0) return undefined;
    return { format, ...(typeof writtenBy === 'string' ? { by: writtenBy.slice(0, 60) } : {}) };
  } catch {
    return undefined;
  }
}

/**
 * Brings the folder up to the form of this hawse, whose name and version is `by`, step by step, and writes each step down. To be called
 * by who holds the lock. Resolves to what hinders writing it down, in words: a disk that takes nothing is no reason not to watch.
 */
export async function bringUp(
  data: string,
  by: string,
  migrations: Migrations = MIGRATIONS,
  known = FORMAT,
): Promise<string | undefined> {
  try {
    for (let format = await formatOf(data, known); format < known; format++) {
      const migrate = migrations[format];
      if (!migrate) throw new Error(`there is no way from form ${format} to ${format + 1}`);
      await migrate(data);
      const told = `${JSON.stringify({ format: format + 1, writtenBy: by })}\n`;
      await hostDisk.replace(join(data, FILE), Buffer.from(told, 'utf8'));
    }
    return undefined;
  } catch (error) {
    if (error instanceof FormatError) throw error;
    return `${data} is not brought to form ${known}: ${describeDiskFault(error)}`;
  }
}
