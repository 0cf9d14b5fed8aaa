import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { PageView } from '../shared/state.ts';
import type { WatchView } from '../shared/watch/view.ts';
import type { OpenPhone } from './api/live/clients.ts';
import { createPhones, expectAgain, gone, look, type PhonesState, rest } from './phones.ts';

/** Ties `phones.ts` to the daemon: looks at the open pages, tells the fault, and keeps over a restart who is counted on. */
export interface PhoneWatch {
  look(): void;
  /** Armed phones that are not there, for the lists on the pages. */
  gone(): PageView[];
}

export interface PhoneWatchPorts {
  /** Folder of the journal. */
  data: string;
  open(): OpenPhone[];
  phase(): WatchView['phase'];
  /** Whether the engine holds the fault already, from before a restart. */
  held: boolean;
  /** The fault as it is now; called when it differs from the last time. */
  tell(raised: boolean, text: string): void;
  /** The file cannot be written: after a restart nobody would be missed. */
  trouble(error: unknown): void;
}

export function createPhoneWatch({ data, open, phase, held, tell, trouble }: PhoneWatchPorts): PhoneWatch {
  const file = join(data, 'phones.json');
  const state = createPhones(performance.now(), readKept(file));
  let lastPhase = phase();
  let told = held ? undefined : '';

  function keep(): void {
    try {
      const draft = `${file}.tmp`;
      const { resting, expected } = state;
      writeFileSync(draft, JSON.stringify({ resting, expected }), { flush: true });
      renameSync(draft, file);
    } catch (error) {
      trouble(error);
    }
  }

  /** While the anchor is weighed or aweigh a phone need not wake anybody. */
  function followPhase(): boolean {
    const now = phase();
    if (now === lastPhase) return false;
    lastPhase = now;
    return now === 'watching' ? expectAgain(state, performance.now()) : rest(state);
  }

  return {
    look() {
      const rested = followPhase();
      const { raise, changed } = look(state, open(), performance.now());
      if (changed || rested) keep();
      if (!raise) return;
      const now = raise.raised ? raise.text : '';
      if (now === told) return;
      told = now;
      tell(raise.raised, raise.text);
    },
    gone: () => gone(state, open()),
  };
}

/** A file that is not there, or was cut short by a power cut, expects nobody: the pages that are still open tell anew. */
function readKept(file: string): Pick<PhonesState, 'resting' | 'expected'> | undefined {
  try {
    const kept = JSON.parse(readFileSync(file, 'utf8')) as Partial<PhonesState>;
    if (typeof kept.expected !== 'object' || kept.expected === null) return undefined;
    const expected = Object.entries(kept.expected).map(([phone, view]) => [phone, { ...view, silent: true }]);
    return { resting: kept.resting === true, expected: Object.fromEntries(expected) };
  } catch {
    return undefined;
  }
}
