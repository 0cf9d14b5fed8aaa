import { access, copyFile, link, rename, truncate } from 'node:fs/promises';
import { promisify } from 'node:util';
import { gzip } from 'node:zlib';
import { contentOf } from './content.ts';
import type { Disk } from './disk.ts';
import { endOf } from './read.ts';
import { readActRecord, readLineRecord } from './records.ts';
import { recordsIn } from './records-in.ts';
import { ACTS, ASIDE, LINES, listSegments, PACKED, type Segment } from './segments.ts';

type Told = (note: string) => void;
const pack = promisify(gzip);

/** Takes off the end of the last segment what a power cut left unfinished. What cannot be repaired is told. */
export async function repairLast(data: string, told: Told): Promise<void> {
  const last = (await listSegments(data)).at(-1);
  if (!last) return;
  for (const path of [last.base + LINES, last.base + ACTS]) {
    const text = (await contentOf(path).catch(() => undefined))?.toString('latin1');
    if (text === undefined) continue;
    const end = text.lastIndexOf('\n') + 1;
    if (end === text.length) continue;
    try {
      await truncate(path, end);
      told(`${path}: ${text.length - end} bytes of an unfinished record at its end were taken off.`);
    } catch (error) {
      told(`${path}: the unfinished record at its end could not be taken off: ${(error as Error).message}`);
    }
  }
}

/**
 * Puts damaged files of the segments from `from` (UNIX seconds) on aside as they are, with `.bad` added to their names, and leaves their
 * readable records in their place. Nothing is thrown away, and no start stumbles over the same damage again. Never rejects.
 */
export async function quarantine(data: string, from: number, disk: Disk, told: Told): Promise<void> {
  const segments = await listSegments(data).catch(() => []);
  const first = Math.max(
    0,
    segments.findLastIndex(({ start }) => start + 1 <= from),
  );
  for (let i = first; i < segments.length; i++)
    await quarantineSegment(segments[i]!, endOf(segments, i), disk, told);
}

/** The same for one segment, which ends before `end` (UNIX seconds). */
export async function quarantineSegment(
  { base, start }: Segment,
  end: number,
  disk: Disk,
  told: Told,
): Promise<void> {
  await putAside(base + LINES, 'latin1', disk, told, () =>
    recordsIn(base + LINES, 'latin1', readLineRecord, start, end),
  );
  await putAside(base + ACTS, 'utf8', disk, told, () =>
    recordsIn(base + ACTS, 'utf8', readActRecord, start, end),
  );
}

async function putAside(
  path: string,
  encoding: 'latin1' | 'utf8',
  disk: Disk,
  told: Told,
  read: () => Promise<{ damaged: number; good: string[] } | undefined>,
): Promise<void> {
  try {
    let found: { damaged: number; good: string[] } | undefined;
    let why = '';
    try {
      found = await read();
      if (!found || found.damaged === 0) return;
      why = `${found.damaged} damaged records`;
    } catch (error) {
      why = (error as Error).message;
    }
    const file = await whichOf(path);
    if (!found || found.good.length === 0) {
      await rename(file, file + ASIDE);
      told(`${path} cannot be read (${why}); it is put aside as ${file + ASIDE}.`);
      return;
    }
    await twice(file, file + ASIDE);
    const good = Buffer.from(found.good.map((record) => `${record}\n`).join(''), encoding);
    await disk.replace(file, file.endsWith(PACKED) ? await pack(good) : good);
    told(
      `${path}: ${why}; it is put aside as ${file + ASIDE}, and its ${found.good.length} good records stay.`,
    );
  } catch (error) {
    told(`${path} is damaged and could not be put aside: ${(error as Error).message}`);
  }
}

/** The form of the file that is read, as `contentOf` chooses. */
async function whichOf(path: string): Promise<string> {
  return access(path).then(
    () => path,
    () => path + PACKED,
  );
}

/** The same content under a second name, so that the first may be replaced at one stroke. */
async function twice(from: string, to: string): Promise<void> {
  await link(from, to).catch(async (error: NodeJS.ErrnoException) => {
    // Put aside before: the oldest state is the one to keep. File systems without links get a copy.
    if (error.code !== 'EEXIST') await copyFile(from, to);
  });
}
