import { createAppender } from './appender.ts';
import type { Disk } from './disk.ts';
import { ACTS, LINES, type Segment } from './segments.ts';

/** Writes the two files of one segment. What was added is kept until it is safe, whatever fails. */
export interface SegmentWriter {
  start: number;
  add(lines: string, acts: string): void;
  /** Hands everything to the system; acts are then safe, and with `isSyncing` first the lines before them. */
  write(isSyncing: boolean): Promise<void>;
  close(): Promise<void>;
  /** Bytes of lines that are not safe yet, and in all. */
  unsafe(): number;
  size(): number;
}

export function createSegmentWriter({ start, base }: Segment, disk: Disk): SegmentWriter {
  const lines = createAppender(base + LINES, disk);
  const acts = createAppender(base + ACTS, disk);
  return {
    start,
    add(lineRecords, actRecords) {
      if (lineRecords !== '') lines.add(Buffer.from(lineRecords, 'latin1'));
      if (actRecords !== '') acts.add(Buffer.from(actRecords, 'utf8'));
    },
    async write(isSyncing) {
      await lines.write();
      if (isSyncing) await lines.sync();
      await acts.write();
      await acts.sync();
    },
    async close() {
      await lines.close();
      await acts.close();
    },
    unsafe: lines.unsafe,
    size: lines.size,
  };
}
