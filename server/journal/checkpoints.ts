import { createHash } from 'node:crypto';
import { readdir, readFile, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { Disk } from './disk.ts';
import { journalFolder } from './segments.ts';

/** The newest are kept, and the one before should it be damaged … */
const KEPT = 2;
/** … and of each of so many hours, this one included, the first: should what was wrong have gone into the newest ones too. */
const HOURS_KEPT = 2;
const HOUR = 3600;
const NAME = /^checkpoint-(\d+\.\d{6})\.json$/;
/** Left behind when the process ended while it wrote one. */
const DRAFT = /^checkpoint-\d+\.\d{6}\.json\.tmp$/;

export interface Checkpoint {
  at: number;
  state: unknown;
}

const digest = (body: string): string => createHash('sha256').update(body).digest('hex');

/** The checkpoint as it stands in its file: a line with its SHA-256, then JSON. */
export function checkpointText(state: unknown, at: number): string {
  const body = JSON.stringify({ at, state });
  return `${digest(body)}\n${body}\n`;
}

/** Writes a checkpoint beside the older ones, then removes those that are not needed. Rejects when the disk does not take it. */
export async function saveCheckpoint(data: string, at: number, text: string, disk: Disk): Promise<void> {
  await disk.replace(
    join(journalFolder(data), `checkpoint-${at.toFixed(6)}.json`),
    Buffer.from(text, 'utf8'),
  );
  for (const { path } of superfluous(await listCheckpoints(data))) await disk.remove(path);
}

/** Of checkpoints, the newest first: those that need not be kept. */
export function superfluous<T extends { at: number }>(newestFirst: readonly T[]): T[] {
  const hourOf = ({ at }: T) => Math.floor(at / HOUR);
  const latest = newestFirst[0];
  if (!latest) return [];
  return newestFirst.slice(KEPT).filter((one, i, older) => {
    const isFirstOfHour = older[i + 1] === undefined || hourOf(older[i + 1]!) !== hourOf(one);
    return !(isFirstOfHour && hourOf(latest) - hourOf(one) < HOURS_KEPT);
  });
}

/** The newest first. */
export async function listCheckpoints(data: string): Promise<{ at: number; path: string }[]> {
  return (await fileNames(data))
    .flatMap((name) => {
      const at = NAME.exec(name)?.[1];
      return at === undefined ? [] : [{ at: Number(at), path: join(journalFolder(data), name) }];
    })
    .sort((a, b) => b.at - a.at);
}

async function fileNames(data: string): Promise<string[]> {
  return readdir(journalFolder(data)).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return [];
    throw error;
  });
}

/**
 * The newest checkpoint that can be read and that `fits` (throws when it does not). One that is damaged or does not fit is put aside
 * as `.bad` and told.
 */
export async function loadCheckpoint(
  data: string,
  told: (note: string) => void,
  fits: (state: unknown) => void,
): Promise<Checkpoint | undefined> {
  for (const name of await fileNames(data))
    if (DRAFT.test(name)) await rm(join(journalFolder(data), name), { force: true }).catch(() => undefined);
  for (const { path } of await listCheckpoints(data)) {
    try {
      const checkpoint = readCheckpoint(await readFile(path, 'utf8'));
      fits(checkpoint.state);
      return checkpoint;
    } catch (error) {
      told(`${path} is damaged (${(error as Error).message}); it is put aside and an older one is used.`);
      await rename(path, `${path}.bad`).catch(() => undefined);
    }
  }
  return undefined;
}

function readCheckpoint(text: string): Checkpoint {
  const end = text.indexOf('\n');
  const body = text.slice(end + 1).trimEnd();
  if (digest(body) !== text.slice(0, end)) throw new Error('its checksum is wrong');
  return JSON.parse(body) as Checkpoint;
}
