import {
  closeSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  unlinkSync,
  writeSync,
} from 'node:fs';
import { dirname } from 'node:path';

/** Puts a file that only this user may read in the place of an older one or none: after a power cut there is one of the two. Throws. */
export function replaceSecretFile(path: string, text: string): void {
  const draft = `${path}.tmp`;
  mkdirSync(dirname(path), { recursive: true });
  // Made anew: a draft left behind might have other rights, and a link in its place would be followed.
  rmSync(draft, { force: true });
  const file = openSync(draft, 'wx', 0o600);
  try {
    writeSync(file, text);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
  renameSync(draft, path);
  syncFolder(dirname(path));
}

export function removeFile(path: string): void {
  unlinkSync(path);
  syncFolder(dirname(path));
}

function syncFolder(folder: string): void {
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

/** Undefined when there is no such file; throws when it cannot be read. */
export function readText(path: string): string | undefined {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw error;
  }
}
