import { contentOf } from './content.ts';

/** What a file of a segment holds. */
export interface Found<T> {
  records: T[];
  /** Complete records that could not be read. */
  damaged: number;
  /** Bytes after the last line end: a record that was not finished. */
  unfinished: number;
  /** The good records as they stand in the file. */
  good: string[];
}

/**
 * Reads the records of one file in order; undefined when there is no such file. Rejects when it cannot be read. Times increase
 * strictly within a file: of two records that contradict each other the one that also contradicts its other neighbour is damaged, and
 * so is one that is not within `start` ≤ at < `end` (UNIX seconds) of its segment. One false time must not take away what follows it.
 */
export async function recordsIn<T extends { at: number }>(
  path: string,
  encoding: 'latin1' | 'utf8',
  read: (record: string) => T | undefined,
  start: number,
  end: number,
): Promise<Found<T> | undefined> {
  const text = (await contentOf(path))?.toString(encoding);
  if (text === undefined) return undefined;
  const records: T[] = [];
  const good: string[] = [];
  let damaged = 0;
  let from = 0;
  for (let cut = text.indexOf('\n'); cut >= 0; cut = text.indexOf('\n', from)) {
    const line = text.slice(from, cut);
    from = cut + 1;
    const record = read(line);
    if (record === undefined || !(record.at >= start && record.at < end)) {
      damaged++;
      continue;
    }
    const last = records.at(-1);
    if (last && record.at <= last.at) {
      damaged++;
      if (record.at <= (records.at(-2)?.at ?? Number.NEGATIVE_INFINITY)) continue;
      records.pop();
      good.pop();
    }
    records.push(record);
    good.push(line);
  }
  return { records, damaged, unfinished: text.length - from, good };
}
