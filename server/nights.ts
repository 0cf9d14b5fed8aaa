import { readFileSync } from 'node:fs';
import type { Settings } from '../shared/settings.ts';
import { hostDisk } from './journal/disk.ts';
import { journalActs, journalInputs } from './journal/read.ts';
import { recordedSentences } from './journal/sentences.ts';
import { createLogbook, type Logbook } from './logbook/logbook.ts';
import type { Recorded } from './logbook/recorded.ts';
import { openStore, type Store } from './logbook/store.ts';

/** Ties the logbook to the journal and the disk. */

const ignore = () => {};

export const recorded: Recorded = {
  inputs: (data, from, to) => journalInputs(data, from, to, ignore),
  acts: (data, from) => journalActs(data, from, ignore),
  sentences: recordedSentences,
};

export const nightStore = (data: string): Promise<Store> => openStore(data, hostDisk.replace);

/** Of this hawse, as package.json tells it; the built modules lie one folder deeper than the sources. */
export function hawseVersion(): string {
  for (const above of ['../package.json', '../../package.json']) {
    try {
      const { name, version } = JSON.parse(readFileSync(new URL(above, import.meta.url), 'utf8')) as {
        name?: string;
        version?: string;
      };
      if (name === 'hawse' && version !== undefined) return version;
    } catch {} // not there: the other place
  }
  return 'unknown';
}

/** The logbook of a data folder beside a daemon, or without one: only reads, but for imports. */
export async function logbookOf(data: string, settings: Settings): Promise<Logbook> {
  const store = await nightStore(data);
  return createLogbook({ store, recorded, version: hawseVersion(), settings, told: ignore });
}
