import { constants } from 'node:fs';
import { type FileHandle, mkdir, open, rename, rm, statfs } from 'node:fs/promises';
import { dirname } from 'node:path';

/** What the journal asks of the disk when it writes: small, so that a test can let each call fail. Every call may reject. */
export interface Disk {
  /** Opens a file to write in it, making it and its folders where they are missing. */
  open(path: string): Promise<OpenFile>;
  /** Puts a whole file in the place of an older one, or of none: after a power cut there is one of the two, never a part. */
  replace(path: string, data: Buffer): Promise<void>;
  remove(path: string): Promise<void>;
  /** Bytes left for this user on the disk that holds `folder`. */
  free(folder: string): Promise<number>;
}

export interface OpenFile {
  /** Bytes in it when it was opened. */
  size: number;
  /** Writes all of `data` at `position`. */
  write(data: Buffer, position: number): Promise<void>;
  /** Resolves when all that was written survives a power cut. */
  sync(): Promise<void>;
  close(): Promise<void>;
}

export const hostDisk: Disk = {
  async open(path) {
    const folder = dirname(path);
    const made = await mkdir(folder, { recursive: true });
    const handle = await open(path, constants.O_WRONLY | constants.O_CREAT, 0o644);
    try {
      // The names of a new file and its new folders must survive too.
      const top = made === undefined ? folder : dirname(made);
      for (let at = folder; ; at = dirname(at)) {
        await syncFolder(at);
        if (at === top) break;
      }
      const { size } = await handle.stat();
      return {
        size,
        write: (data, position) => writeAll(handle, data, position),
        sync: () => handle.datasync(),
        close: () => handle.close(),
      };
    } catch (error) {
      await handle.close();
      throw error;
    }
  },

  async replace(path, data) {
    const draft = `${path}.tmp`;
    try {
      const handle = await open(draft, 'w', 0o644);
      try {
        await writeAll(handle, data, 0);
        await handle.sync();
      } finally {
        await handle.close();
      }
      await rename(draft, path);
    } catch (error) {
      await rm(draft, { force: true }).catch(() => undefined);
      throw error;
    }
    await syncFolder(dirname(path));
  },

  remove: (path) => rm(path, { force: true }),

  async free(folder) {
    const { bavail, bsize } = await statfs(folder);
    return bavail * bsize;
  },
};

async function writeAll(handle: FileHandle, data: Buffer, position: number): Promise<void> {
  for (let done = 0; done < data.length; ) {
    const { bytesWritten } = await handle.write(data, done, data.length - done, position + done);
    done += bytesWritten;
  }
}

/** Some file systems (FAT, network shares) have no such thing: there the name is as safe as it can be. */
async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } catch (error) {
    if (!['EINVAL', 'ENOTSUP', 'EPERM', 'EBADF'].includes((error as NodeJS.ErrnoException).code ?? ''))
      throw error;
  } finally {
    await handle.close();
  }
}

const WORDS: Record<string, string> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk quota is used up',
  EROFS: 'the disk is read-only',
  EIO: 'the disk fails',
  EACCES: 'permission denied',
  EPERM: 'permission denied',
  EMFILE: 'too many files are open',
};

/** What the disk refused, in words. */
export function describeDiskFault(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException;
  const words = code === undefined ? undefined : WORDS[code];
  return words ? `${words} (${code})` : String(message ?? error);
}
