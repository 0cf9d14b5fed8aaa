import { mkdir } from 'node:fs/promises';
import type { Input } from '../../shared/input.ts';
import { checkpointText, loadCheckpoint, saveCheckpoint } from './checkpoints.ts';
import { type Disk, describeDiskFault, hostDisk } from './disk.ts';
import { createHealth, type JournalHooks } from './health.ts';
import { journalInputs, repairLast } from './read.ts';
import { type Act, actRecord, type LineInput, lineRecord } from './records.ts';
import { journalFolder, listSegments } from './segments.ts';
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
  /** The newest state that can be read, its time, and the inputs since. `notes` says what was damaged. Call it before the first input. */
  restore(): Promise<Restored>;
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
    async restore() {
      const notes: string[] = [];
      const told = (note: string) => void notes.push(note);
      await repairLast(data, told);
      const checkpoint = await loadCheckpoint(data, told);
      return { ...checkpoint, inputs: journalInputs(data, checkpoint?.at, undefined, told), notes };
    },
    freeBytes: () => disk.free(data).catch(() => undefined),
    async close() {
      await checkpoints;
      await writer.close();
    },
  };
}
