import { mkdir } from 'node:fs/promises';
import type { Input } from '../../shared/input.ts';
import { checkpointText, loadCheckpoint, saveCheckpoint } from './checkpoints.ts';
import { type Disk, describeDiskFault, hostDisk } from './disk.ts';
import { createHealth, type JournalHooks } from './health.ts';
import { inputsToRebuild } from './rebuild.ts';
import { type Act, actRecord, type LineInput, lineRecord } from './records.ts';
import { quarantine, repairLast } from './repair.ts';
import { journalFolder, listSegments } from './segments.ts';
import { type Policy, type Present, type Tidied, tidy } from './tidy.ts';
import { createWriter } from './writer.ts';

/**
 * Keeps every input of the engine, so that stepping it again with them gives the same events to the byte, and checkpoints of its
 * state, so that it need not begin at the beginning. The inputs' times must increase strictly.
 */
export interface Journal {
  /** Keeps a received line: out of this process at once, safe from a power cut within a second or so. */
  line(input: LineInput): void;
  /** Keeps anything else. Resolves when it and all before it are safe; rejects when they are not yet, and goes on trying. */
  act(input: Act): Promise<void>;
  /** Keeps the state as it is now. Never rejects: a failure is a fault that is told. */
  checkpoint(state: unknown, at: number): Promise<void>;
  /**
   * The newest state that can be read and that `fits` (throws when it does not), its time, and the inputs since, or what of them is needed
   * when they are many. What is damaged is put aside; `notes` says what. Call it before the first input.
   */
  restore(fits?: (state: unknown) => void): Promise<Restored>;
  /** Packs old segments and removes the oldest, by `policy`. Never rejects. One at a time; a second call waits for the first. */
  tidy(policy: Policy, present: Present): Promise<Tidied>;
  /** Bytes left on the disk, or undefined when that cannot be told. */
  freeBytes(): Promise<number | undefined>;
  close(): Promise<void>;
}

export interface Restored {
  state?: unknown;
  at?: number;
  inputs: AsyncIterable<Input>;
  /** Complete when the inputs are through. */
  notes: string[];
}

export interface JournalOptions {
  disk?: Disk;
  retry?: number;
  patience?: number;
  backlog?: number;
}

/** At the start, damage is looked for in what was written in the last so many seconds; the rest is looked through when it is packed. */
const QUARANTINED = 4 * 3600;

/** Opens the journal in the data folder, made where it is missing. Rejects when that folder cannot be had; nothing fails loudly later. */
export async function openJournal(
  data: string,
  hooks: JournalHooks,
  { disk = hostDisk, ...timing }: JournalOptions = {},
): Promise<Journal> {
  await mkdir(journalFolder(data), { recursive: true });
  const numbers = (await listSegments(data)).map(({ number }) => number);
  const health = createHealth(hooks);
  const writer = createWriter(data, 1 + Math.max(0, ...numbers), { disk, health, ...timing });
  let checkpoints: Promise<void> = Promise.resolve();
  let isClosing = false;
  let tidying: Promise<Tidied> = Promise.resolve({ removed: 0, packed: 0, bytes: 0, notes: [] });

  async function keepCheckpoint(at: number, text: string): Promise<void> {
    // First what led to it: a state that knows more than the journal could not be reached by replaying it.
    await writer.flush().catch(() => undefined);
    try {
      await saveCheckpoint(data, at, text, disk);
      health.good('checkpoint');
    } catch (error) {
      health.bad('checkpoint', describeDiskFault(error));
    }
  }

  return {
    line(input) {
      const record = lineRecord(input);
      if (record !== undefined) writer.line(record, input.at);
      // Else it would not come back as it is from a recorded sentence; here it does.
      else writer.act(actRecord(input), input.at).catch(() => undefined);
    },
    act: (input) => writer.act(actRecord(input), input.at),
    checkpoint(state, at) {
      const text = checkpointText(state, at);
      checkpoints = checkpoints.then(() => keepCheckpoint(at, text));
      return checkpoints;
    },
    async restore(fits = () => {}) {
      const notes: string[] = [];
      const told = (note: string) => void notes.push(note);
      await repairLast(data, told);
      const checkpoint = await loadCheckpoint(data, told, fits);
      const from = checkpoint?.at ?? Number.NEGATIVE_INFINITY;
      const newest = (await listSegments(data)).at(-1)?.start ?? from;
      await quarantine(data, Math.max(from, newest - QUARANTINED), disk, told);
      return { ...checkpoint, inputs: inputsToRebuild(data, from, told), notes };
    },
    tidy(policy, present) {
      tidying = tidying.then(() => tidy(data, disk, policy, present, () => !isClosing));
      return tidying;
    },
    freeBytes: () => disk.free(data).catch(() => undefined),
    async close() {
      isClosing = true;
      await checkpoints;
      await tidying;
      await writer.close();
    },
  };
}
