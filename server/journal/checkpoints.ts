import { createHash } from 'node:crypto';
import { readdir, readFile, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { Disk } from './disk.ts';
import { journalFolder } from './segments.ts';

/** How many are kept: the newest, and the one before should it be damaged. */
const KEPT = 2;
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

/** Writes a checkpoint beside the older ones, then removes all but the last two. Rejects when the disk does not take it. */
export async function saveCheckpoint(data: string, at: number, text: string, disk: Disk): Promise<void> {
  await disk.replace(
    join(journalFolder(data), `checkpoint-${at.toFixed(6)}.json`),
    Buffer.from(text, 'utf8'),
  );
  for (const { path } of (await listCheckpoints(data)).slice(KEPT)) await disk.remove(path);
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

/** The newest checkpoint that can be read. A damaged one is put aside as `.bad` and told. */
export async function loadCheckpoint(
  data: string,
  told: (note: string) => void,
): Promise<Checkpoint | undefined> {
  for (const name of await fileNames(data))
    if (DRAFT.test(name)) await rm(join(journalFolder(data), name), { force: true }).catch(() => undefined);
  for (const { path } of await listCheckpoints(data)) {
    try {
      return readCheckpoint(await readFile(path, 'utf8'));
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
