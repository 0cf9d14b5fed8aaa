import type { Dirent } from 'node:fs';
import { readdir, stat } from 'node:fs/promises';
import { join } from 'node:path';

/** Received lines, and beside them everything else. */
export const LINES = '.nmea';
export const ACTS = '.acts.jsonl';
/** Added to either of them when the segment has been packed. */
export const PACKED = '.gz';
/** Added to a damaged file that was put aside. */
export const ASIDE = '.bad';

/** A stretch of the journal: two files of one name, `YYYY-MM-DD/HHMMSS-N`, either of which may be missing, or packed. */
export interface Segment {
  /** UNIX time of its first input, the second before or on it. */
  start: number;
  /** Counts through the whole journal. */
  number: number;
  /** Path without ending. */
  base: string;
}

/** Folder of the journal in the data folder. */
export const journalFolder = (data: string): string => join(data, 'journal');

const DAY = /^(\d{4})-(\d\d)-(\d\d)$/;
const NAME = /^(\d\d)(\d\d)(\d\d)-(\d+)\.(nmea|acts\.jsonl)(\.gz)?$/;

export function makeSegment(data: string, at: number, number: number): Segment {
  const start = Math.floor(at);
  const [day, time] = new Date(start * 1000).toISOString().split('T') as [string, string];
  const clock = time.slice(0, 8).replaceAll(':', '');
  return { start, number, base: join(journalFolder(data), day, `${clock}-${number}`) };
}

/** All segments in order of time; none when there is no journal. Rejects when a folder cannot be read. */
export async function listSegments(data: string): Promise<Segment[]> {
  const root = journalFolder(data);
  const found = new Map<string, Segment>();
  for (const day of await entries(root)) {
    const date = DAY.exec(day.name);
    if (!date || !day.isDirectory()) continue;
    for (const { name } of await entries(join(root, day.name))) {
      const parts = NAME.exec(name);
      if (!parts) continue;
      const [hour, minute, second, number] = parts.slice(1, 5).map(Number) as [
        number,
        number,
        number,
        number,
      ];
      const [year, month, dayOfMonth] = date.slice(1).map(Number) as [number, number, number];
      const start = Date.UTC(year, month - 1, dayOfMonth, hour, minute, second) / 1000;
      const base = join(root, day.name, name.slice(0, -`.${parts[5]}${parts[6] ?? ''}`.length));
      found.set(base, { start, number, base });
    }
  }
  return [...found.values()].sort((a, b) => a.start - b.start || a.number - b.number);
}

/** Every name that a file of the segment may have. */
export const filesOf = ({ base }: Segment): string[] =>
  [LINES, ACTS].flatMap((ending) => ['', PACKED, ASIDE, PACKED + ASIDE].map((more) => base + ending + more));

/** Bytes of all its files on the disk. */
export async function bytesOf(segment: Segment): Promise<number> {
  const sizes = filesOf(segment).map((path) =>
    stat(path).then(
      ({ size }) => size,
      () => 0,
    ),
  );
  return (await Promise.all(sizes)).reduce((sum, size) => sum + size, 0);
}

async function entries(folder: string): Promise<Dirent[]> {
  return readdir(folder, { withFileTypes: true }).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return [];
    throw error;
  });
}
