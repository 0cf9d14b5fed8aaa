import { existsSync } from 'node:fs';
import { open, rm, statfs } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { describeDiskFault } from '../journal/disk.ts';
import { FormatError, formatOf } from '../journal/format.ts';
import { type Finding, fault, good, look } from './finding.ts';

/** File systems that are memory, not disk: linux/magic.h, TMPFS_MAGIC and RAMFS_MAGIC. */
const MEMORY = [0x01021994, 0x858458f6];

/**
 * Whether the data folder takes a log: its form, writing, room (`leastFree` bytes must stay), and that a power cut leaves it. `holder` is the
 * process that keeps its watch there now.
 */
export async function checkDisk(data: string, leastFree: number, holder?: number): Promise<Finding[]> {
  const isThere = existsSync(data);
  const folder = isThere ? resolve(data) : nearest(resolve(data));
  const findings: Finding[] = [];
  try {
    await formatOf(data);
  } catch (error) {
    const cure =
      error instanceof FormatError ? 'install that version again, or use another folder' : 'look at the disk';
    findings.push(fault('disk', (error as Error).message, cure));
  }
  findings.push(await writing(data, folder));
  try {
    const { bavail, bsize, type } = await statfs(folder);
    const free = bavail * bsize;
    const told = `${megabytes(free)} are free for ${data}`;
    if (free < leastFree)
      findings.push(
        fault(
          'disk',
          `${told}; ${megabytes(leastFree)} must stay (journal.leastFree)`,
          'make room: the oldest nights would be given up',
        ),
      );
    else findings.push(good('disk', told));
    if (MEMORY.includes(type))
      findings.push(
        fault(
          'disk',
          `${data} lies in memory: a power cut takes the whole log`,
          'name a folder on a disk with --data',
        ),
      );
  } catch (error) {
    findings.push(fault('disk', `${data}: ${describeDiskFault(error)}`, 'look at the disk'));
  }
  if (holder !== undefined) findings.push(good('disk', `process ${holder} keeps its watch in ${data}`));
  else if (existsSync(join(data, 'lock')))
    findings.push(
      look(
        'disk',
        `the last watch in ${data} ended without letting go (power cut, crash or kill)`,
        'nothing: the next one takes it over and says so',
      ),
    );
  return findings;
}

async function writing(data: string, folder: string): Promise<Finding> {
  const probe = join(folder, `.check-${process.pid}`);
  try {
    const file = await open(probe, 'wx', 0o600);
    try {
      await file.writeFile('hawse check\n');
      await file.sync();
    } finally {
      await file.close();
      await rm(probe, { force: true });
    }
    return good(
      'disk',
      existsSync(data) ? `${data} takes what is written` : `${data} will be made in ${folder}`,
    );
  } catch (error) {
    return fault(
      'disk',
      `${folder} takes nothing: ${describeDiskFault(error)}`,
      'give it to this user (chown), free or mend the disk, or name another folder with --data',
    );
  }
}

const nearest = (folder: string): string => (existsSync(folder) ? folder : nearest(dirname(folder)));
const megabytes = (bytes: number): string =>
  bytes < 10e9 ? `${Math.floor(bytes / 1e6)} MB` : `${Math.floor(bytes / 1e9)} GB`;
