import { readFile } from 'node:fs/promises';
import { promisify } from 'node:util';
import { gunzip } from 'node:zlib';
import { PACKED } from './segments.ts';

const unpack = promisify(gunzip);
/** A packed segment was 8 MB or little more; what grows beyond this is damaged, and would eat the memory. */
const LARGEST = 256 * 1024 * 1024;

/**
 * A file of a segment, packed or not; undefined when there is none. Rejects when it cannot be read or unpacked. A segment is small:
 * it is read whole. While both forms are there (a power cut during the packing) the plain one counts.
 */
export async function contentOf(path: string): Promise<Buffer | undefined> {
  const plain = await bytes(path);
  if (plain) return plain;
  const packed = await bytes(path + PACKED);
  return packed && unpack(packed, { maxOutputLength: LARGEST });
}

async function bytes(path: string): Promise<Buffer | undefined> {
  try {
    return await readFile(path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw error;
  }
}
