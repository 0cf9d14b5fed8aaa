import { truncate } from 'node:fs/promises';
import { type Disk, hostDisk } from '../../../server/journal/disk.ts';

type Call = 'open' | 'write' | 'sync' | 'replace';

/** A real disk whose calls can be made to fail, to stop half-way, or to hang. */
export interface FaultyDisk extends Disk {
  /** The error code that a call gives, `half` to write half of it and then fail, `hang` to give no answer until mended. */
  faults: Partial<Record<Call, string>>;
  /** Ends all faults, and lets go what hangs. */
  mend(): void;
  calls: Record<Call, number>;
}

export function faultyDisk(): FaultyDisk {
  let letGo = () => {};
  let hanging: Promise<void> | undefined;
  const calls = { open: 0, write: 0, sync: 0, replace: 0 };
  const fault = async (call: Call): Promise<void> => {
    calls[call]++;
    const code = disk.faults[call];
    if (code === undefined) return;
    if (code !== 'hang') throw Object.assign(new Error(`${code} by the test`), { code });
    hanging ??= new Promise((resolve) => {
      letGo = resolve;
    });
    await hanging;
  };
  const disk: FaultyDisk = {
    faults: {},
    calls,
    mend() {
      disk.faults = {};
      hanging = undefined;
      letGo();
    },
    async open(path) {
      await fault('open');
      const file = await hostDisk.open(path);
      let safe = file.size;
      let end = file.size;
      return {
        size: file.size,
        async write(data, position) {
          if (disk.faults.write === 'half') {
            await file.write(data.subarray(0, data.length >> 1), position);
            throw Object.assign(new Error('full'), { code: 'ENOSPC' });
          }
          await fault('write');
          await file.write(data, position);
          end = position + data.length;
        },
        async sync() {
          try {
            await fault('sync');
          } catch (error) {
            // As a real system does: what could not be synced is dropped, and the next sync says all is well.
            await truncate(path, safe);
            throw error;
          }
          await file.sync();
          safe = end;
        },
        close: () => file.close(),
      };
    },
    async replace(path, data) {
      await fault('replace');
      await hostDisk.replace(path, data);
    },
    remove: hostDisk.remove,
    free: hostDisk.free,
  };
  return disk;
}
