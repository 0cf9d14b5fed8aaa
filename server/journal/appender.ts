import type { Disk, OpenFile } from './disk.ts';

/**
 * Adds to the end of one file. What was added is held until it is safe on the disk: after any failure the file is opened anew and
 * all of it is written again from the last safe place on, since a disk that failed once to sync may have dropped what it took.
 */
export interface Appender {
  add(data: Buffer): void;
  /** Hands everything added to the system: it survives the end of this process. */
  write(): Promise<void>;
  /** Makes everything written safe from a power cut. */
  sync(): Promise<void>;
  close(): Promise<void>;
  /** Bytes added that are not safe yet. */
  unsafe(): number;
  /** Bytes added in all. */
  size(): number;
}

export function createAppender(path: string, disk: Disk): Appender {
  let file: OpenFile | undefined;
  let held: Buffer[] = [];
  let written = 0;
  let safeEnd = 0;
  let end = 0;
  let unsafe = 0;
  let wasOpened = false;

  async function attempt(work: () => Promise<void>): Promise<void> {
    try {
      await work();
    } catch (error) {
      const failed = file;
      file = undefined;
      written = 0;
      end = safeEnd;
      await failed?.close().catch(() => undefined);
      throw error;
    }
  }

  return {
    add(data) {
      held.push(data);
      unsafe += data.length;
    },
    write: () =>
      attempt(async () => {
        if (written === held.length) return;
        if (!file) {
          file = await disk.open(path);
          // What is in a file that is there already stays. When it is shorter than it was, somebody took it away: no hole is made.
          safeEnd = end = wasOpened ? Math.min(end, file.size) : file.size;
          wasOpened = true;
        }
        for (; written < held.length; written++) {
          const data = held[written]!;
          await file.write(data, end);
          end += data.length;
        }
      }),
    sync: () =>
      attempt(async () => {
        if (unsafe === 0 || !file) return;
        await file.sync();
        safeEnd = end;
        held = [];
        written = 0;
        unsafe = 0;
      }),
    async close() {
      await file?.close().catch(() => undefined);
      file = undefined;
    },
    unsafe: () => unsafe,
    size: () => safeEnd + unsafe,
  };
}
