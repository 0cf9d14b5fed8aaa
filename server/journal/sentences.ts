import { basename, dirname } from 'node:path';
import { endOf } from './read.ts';
import { readLineRecord } from './records.ts';
import { recordsIn } from './records-in.ts';
import { LINES, listSegments } from './segments.ts';

/** The recorded sentences of one segment that fall into a range of time, as they stand in the file. */
export interface Stretch {
  /** `YYYY-MM-DD/HHMMSS-N`. */
  segment: string;
  /** Times of its first and last line, UNIX seconds. */
  from: number;
  to: number;
  lines: number;
  /** One character a byte, every line ended. */
  text: string;
}

/**
 * The recorded sentences of the journal in `data` from `from` to `to`, both included (UNIX seconds), a segment at a time. Damaged records
 * are left out. Rejects when a segment cannot be read: a checksum over what happens to be readable would be none.
 */
export async function* recordedSentences(data: string, from: number, to: number): AsyncGenerator<Stretch> {
  const segments = await listSegments(data);
  for (const [i, { start, base }] of segments.entries()) {
    const next = segments[i + 1];
    if (start > to || (next && next.number > segments[i]!.number && next.start + 1 <= from)) continue;
    const found = await recordsIn(base + LINES, 'latin1', readLineRecord, start, endOf(segments, i));
    if (!found) continue;
    const { records, good } = found;
    const first = records.findIndex(({ at }) => at >= from);
    if (first < 0) continue;
    let end = records.length;
    while (end > first && records[end - 1]!.at > to) end--;
    if (end === first) continue;
    yield {
      segment: `${basename(dirname(base))}/${basename(base)}`,
      from: records[first]!.at,
      to: records[end - 1]!.at,
      lines: end - first,
      text: good
        .slice(first, end)
        .map((line) => `${line}\n`)
        .join(''),
    };
  }
}
