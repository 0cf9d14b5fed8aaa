import { open, readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { gunzip } from 'node:zlib';
import { NIGHT_ID } from '../../shared/messages.ts';

/** Where the logbook keeps what in the data folder. Each night has a folder of its own; an import brings its own journal in there. */
export const nightsFolder = (data: string): string => join(data, 'nights');
export const nightFolder = (data: string, id: string): string => join(nightsFolder(data), id);
export const indexFile = (data: string): string => join(nightsFolder(data), 'index.json');

export const SUMMARY = 'summary.json';
/** A sample a line, added to. */
export const STRIPS = 'strips.jsonl';
/** What people have said; nothing else could bring it back. */
export const SAID = 'said.json';
/** The engine's state just before the mark. */
export const START = 'start.json.gz';
export const CHECKSUMS = 'checksums.json';

/** Ids of all nights that have a folder, oldest first. */
export async function nightIds(data: string): Promise<string[]> {
  const entries = await readdir(nightsFolder(data), { withFileTypes: true }).catch(
    (error: NodeJS.ErrnoException) => {
      if (error.code === 'ENOENT') return [];
      throw error;
    },
  );
  return entries
    .filter((entry) => entry.isDirectory() && NIGHT_ID.test(entry.name))
    .map(({ name }) => name)
    .sort();
}

/** The JSON in a file; undefined when it is missing or damaged. */
export async function readJson<T>(path: string): Promise<T | undefined> {
  try {
    return JSON.parse(await readFile(path, 'utf8')) as T;
  } catch (error) {
    if (error instanceof SyntaxError || (error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw error;
  }
}

/** The same of a gzip file. */
export async function readGzipJson<T>(path: string): Promise<T | undefined> {
  const packed = await readFile(path).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return undefined;
    throw error;
  });
  if (!packed) return undefined;
  try {
    return JSON.parse((await promisify(gunzip)(packed)).toString('utf8')) as T;
  } catch {
    return undefined; // cut off or damaged: as good as missing
  }
}

/** Adds to the end of a file; resolves when that survives a power cut. */
export async function append(path: string, text: string): Promise<void> {
  const handle = await open(path, 'a', 0o644);
  try {
    await handle.appendFile(text, 'utf8');
    await handle.datasync();
  } finally {
    await handle.close();
  }
}

/** The id of a night that began at `at`, UNIX seconds: day and minute, and the first number that is not taken. */
export function nightId(at: number, taken: (id: string) => boolean): string {
  const minute = new Date(at * 1000).toISOString().slice(0, 16).replace(/:/g, '');
  let number = 1;
  while (taken(`${minute}-${number}`)) number++;
  return `${minute}-${number}`;
}
