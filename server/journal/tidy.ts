import { readdir, readFile, rmdir } from 'node:fs/promises';
import { dirname } from 'node:path';
import { promisify } from 'node:util';
import { gunzip, gzip } from 'node:zlib';
import { type Disk, describeDiskFault } from './disk.ts';
import { quarantineSegment } from './repair.ts';
import { outlived, type Policy, type Present } from './retention.ts';
import { ACTS, bytesOf, filesOf, LINES, listSegments, PACKED, type Segment } from './segments.ts';

export type { Policy, Present } from './retention.ts';

/** What was done; `bytes` were given back to the disk. */
export interface Tidied {
  removed: number;
  packed: number;
  bytes: number;
  notes: string[];
}

const pack = promisify(gzip);
const unpack = promisify(gunzip);
/** Segments packed at one go: the rest next time, so that a year of them does not keep the processor for an hour. */
const AT_ONE_GO = 24;
const REASONS = { age: 'their age', size: 'the size of the log', room: 'want of room on the disk' } as const;

/**
 * Removes what has outlived the policy, then packs what is old, while it `isWanted`. Never rejects: what fails is noted and tried again
 * the next time.
 */
export async function tidy(
  data: string,
  disk: Disk,
  policy: Policy,
  present: Present,
  isWanted: () => boolean,
): Promise<Tidied> {
  const done: Tidied = { removed: 0, packed: 0, bytes: 0, notes: [] };
  try {
    const segments = await listSegments(data);
    const weighed = await Promise.all(
      segments.map(async (segment, i) => ({
        ...segment,
        end: segments[i + 1]?.start ?? Number.POSITIVE_INFINITY,
        bytes: await bytesOf(segment),
      })),
    );
    const gone = outlived(weighed, policy, present);
    const whys = new Set<string>();
    for (const { segment, why } of gone) {
      await removeSegment(segment, disk);
      whys.add(REASONS[why]);
      done.removed++;
      done.bytes += segment.bytes;
    }
    if (done.removed > 0)
      done.notes.push(
        `Sentences up to ${new Date(gone.at(-1)!.segment.end * 1000).toISOString().slice(0, 16)}Z were removed for ${[...whys].join(' and ')}: ${(done.bytes / 1e6).toFixed(0)} MB.`,
      );
    await packOld(weighed.slice(gone.length, -1), disk, policy, done, isWanted);
  } catch (error) {
    done.notes.push(`The log cannot be tidied: ${describeDiskFault(error)}.`);
  }
  return done;
}

async function removeSegment(segment: Segment, disk: Disk): Promise<void> {
  for (const path of filesOf(segment)) await disk.remove(path);
  const day = dirname(segment.base);
  // Today's folder is never empty; an old one goes with its last segment.
  if ((await readdir(day)).length === 0) await rmdir(day);
}

/** Nothing is packed that the newest segment began less than `packAfter` after: the journal's own time decides, not a clock. */
async function packOld(
  segments: readonly (Segment & { end: number })[],
  disk: Disk,
  { packAfter }: Policy,
  done: Tidied,
  isWanted: () => boolean,
): Promise<void> {
  const newest = segments.at(-1)?.end ?? 0;
  for (const segment of segments) {
    if (segment.end > newest - packAfter || done.packed >= AT_ONE_GO || !isWanted()) break;
    const plain = await plainOf(segment);
    if (plain.length === 0) continue;
    // What is damaged is put aside before it disappears in a packed file.
    await quarantineSegment(segment, segment.end + 1, disk, (note) => done.notes.push(note));
    for (const path of await plainOf(segment)) done.bytes += await packFile(path, disk);
    done.packed++;
  }
}

async function plainOf({ base }: Segment): Promise<string[]> {
  const names = new Set(await readdir(dirname(base)));
  return [LINES, ACTS]
    .map((ending) => base + ending)
    .filter((path) => names.has(path.slice(dirname(path).length + 1)));
}

/** The packed file is safe on the disk, and was read back, before the plain one goes. Returns the bytes saved. */
async function packFile(path: string, disk: Disk): Promise<number> {
  const plain = await readFile(path);
  const packed = await pack(plain);
  await disk.replace(path + PACKED, packed);
  if (!(await unpack(await readFile(path + PACKED))).equals(plain))
    throw new Error(`${path + PACKED} does not hold what was written`);
  await disk.remove(path);
  return plain.length - packed.length;
}
