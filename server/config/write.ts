import { constants } from 'node:fs';
import { access, copyFile, open, readFile, realpath, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';

/** Where the text is kept that was there before the last change. */
export const before = (file: string): string => `${file}.before`;

/** Why the file cannot be replaced, in words; undefined: it can. */
export async function whyNotWritable(file: string): Promise<string | undefined> {
  try {
    const real = await realpath(file);
    await access(real, constants.R_OK | constants.W_OK);
    await access(dirname(real), constants.W_OK);
    return undefined;
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT') return `${file} is not there any more.`;
    if (code === 'EACCES' || code === 'EPERM' || code === 'EROFS')
      return `${file} or its folder may not be written by the user that hawse runs as: change it there by hand, or give that user the right.`;
    return `${file} cannot be written: ${message}`;
  }
}

/**
 * Replaces the text of the file in one stroke: whoever reads it, also after the power fails, finds the old text or the new one, whole.
 * The old text is kept beside it. Rejects with the system's error, and then the file is as it was.
 */
export async function replaceText(file: string, text: string): Promise<void> {
  const real = await realpath(file);
  const { mode } = await stat(real);
  const folder = dirname(real);
  const fresh = join(folder, `.${basename(real)}.new`);
  const old = join(folder, `.${basename(real)}.old`);
  try {
    await copyFile(real, old);
    await synced(old);
    await rename(old, before(real));
    const handle = await open(fresh, 'w', mode & 0o777);
    try {
      await handle.writeFile(text, 'utf8');
      await handle.sync();
    } finally {
      await handle.close();
    }
    await rename(fresh, real);
  } catch (error) {
    await Promise.allSettled([rm(fresh, { force: true }), rm(old, { force: true })]);
    throw error;
  }
  // A folder that cannot be synced (some network disks) is no reason to say that it was not written.
  await synced(folder).catch(() => undefined);
}

export const readText = (file: string): Promise<string> => readFile(file, 'utf8');

async function synced(path: string): Promise<void> {
  const handle = await open(path, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}
