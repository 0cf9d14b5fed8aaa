import { mkdirSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import type { Disk } from '../../../server/journal/disk.ts';

interface Kept {
  /** What survives for certain. */
  safe: Buffer;
  /** What was written since the last sync, in order: a power cut keeps any of it. */
  pending: { data: Buffer; position: number }[];
}

/**
 * A disk as a power cut finds it: what was synced is there, of what was written since any part may be, in any order, torn within a
 * write, with zeros where the length arrived and the data did not. It keeps files in memory; `cut` writes what would be left.
 */
export interface CutDisk extends Disk {
  /** Writes what a cut at this moment leaves; the disk is gone after. */
  cut(random: () => number): void;
}

export function cutDisk(): CutDisk {
  const files = new Map<string, Kept>();
  let isCut = false;
  const alive = () => {
    if (isCut) throw Object.assign(new Error('the power is cut'), { code: 'EIO' });
  };
  // Gives the power a moment to go between any two calls.
  const turn = () => new Promise((resolve) => setImmediate(resolve));
  const whole = ({ safe, pending }: Kept): Buffer =>
    pending.reduce((now, write) => overlaid(now, write), safe);
  return {
    async open(path) {
      await turn();
      alive();
      // hostDisk syncs the folder before it answers: the name is safe.
      const kept = files.get(path) ?? { safe: Buffer.alloc(0), pending: [] };
      files.set(path, kept);
      return {
        size: whole(kept).length,
        async write(data, position) {
          await turn();
          alive();
          kept.pending.push({ data: Buffer.from(data), position });
          await turn();
        },
        async sync() {
          const upTo = kept.pending.length;
          await turn();
          alive();
          kept.safe = whole({ safe: kept.safe, pending: kept.pending.slice(0, upTo) });
          kept.pending.splice(0, upTo);
        },
        async close() {},
      };
    },
    async replace(path, data) {
      await turn();
      alive();
      files.set(path, { safe: Buffer.from(data), pending: [] });
      await turn();
    },
    async remove(path) {
      alive();
      files.delete(path);
      rmSync(path, { force: true });
    },
    free: async () => 1e12,
    cut(random) {
      isCut = true;
      for (const [path, kept] of files) {
        mkdirSync(dirname(path), { recursive: true });
        let left = kept.safe;
        for (const write of kept.pending) {
          if (random() < 0.4) continue;
          const torn = Math.floor(random() * (write.data.length + 1));
          left = overlaid(left, { ...write, data: write.data.subarray(0, torn) });
        }
        writeFileSync(path, left);
        if (random() < 0.3) truncateSync(path, left.length + Math.floor(random() * 200));
      }
    },
  };
}

function overlaid(now: Buffer, { data, position }: { data: Buffer; position: number }): Buffer {
  const next = Buffer.alloc(Math.max(now.length, position + data.length));
  now.copy(next);
  data.copy(next, position);
  return next;
}
