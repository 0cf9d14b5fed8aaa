import { type Disk, describeDiskFault } from './disk.ts';
import type { Health } from './health.ts';
import { createSegmentWriter, type SegmentWriter } from './segment-writer.ts';
import { makeSegment } from './segments.ts';

/** A segment ends after so many seconds of its timeline, or bytes of sentences. */
const SEGMENT_SECONDS = 3600;
const SEGMENT_BYTES = 8 * 1024 * 1024;
const SYNC_EVERY_MS = 1000;
/** Sentences kept in memory for a disk that does not take them: two hours of a busy bus. Then they are lost, and this is told. */
const BACKLOG_BYTES = 16 * 1024 * 1024;

export interface WriterOptions {
  disk: Disk;
  health: Health;
  /** Until the next try after a failure, milliseconds. */
  retry?: number;
  /** A disk that is silent for so long is told as a fault, milliseconds. */
  patience?: number;
  backlog?: number;
}

/** Writes the journal in rounds: what comes while one is under way goes with the next. Never throws; faults go to `health`. */
export interface Writer {
  /** Handed to the system at once, safe within a second or so. */
  line(record: string, at: number): void;
  /** Resolves when it and every line before it are safe. Rejects when that failed for now; it is tried again all the same. */
  act(record: string, at: number): Promise<void>;
  /** Resolves when everything so far is safe; rejects when that failed for now. */
  flush(): Promise<void>;
  close(): Promise<void>;
}

interface Waiter {
  resolve(): void;
  reject(error: Error): void;
}

export function createWriter(
  data: string,
  firstNumber: number,
  { disk, health, retry = 1000, patience = 10_000, backlog = BACKLOG_BYTES }: WriterOptions,
): Writer {
  let number = firstNumber;
  let segment: SegmentWriter | undefined;
  let lines: string[] = [];
  let acts: string[] = [];
  let queuedBytes = 0;
  /** Time of the first input that waits to be written. */
  let nextAt: number | undefined;
  let waiting: Waiter[] = [];
  let inFlight: Waiter[] = [];

  let isFailing = false;
  let isClosing = false;
  let isSyncDue = false;
  let syncTimer: NodeJS.Timeout | undefined;
  let endPause = () => {};
  let isPumping = false;
  let pumping: Promise<void> | undefined;
  let fault = '';
  let isLosing = false;

  const hasWork = () => lines.length > 0 || acts.length > 0 || waiting.length > 0 || isSyncDue || isFailing;

  function wake(): void {
    if (isPumping) return;
    isPumping = true;
    pumping = pump();
  }

  async function pump(): Promise<void> {
    while (hasWork()) {
      const slow = setTimeout(() => {
        fail(new Error(`the disk has not answered for ${patience / 1000} s`));
      }, patience);
      try {
        await round();
        isFailing = false;
        isLosing = false;
        health.good('log');
      } catch (error) {
        fail(error);
        if (isClosing) break;
        await new Promise<void>((resolve) => {
          const timer = setTimeout(resolve, retry);
          endPause = () => {
            clearTimeout(timer);
            resolve();
          };
        });
      } finally {
        clearTimeout(slow);
      }
    }
    isPumping = false;
  }

  /** Those who wait hear of it; what they gave is kept and written when the disk takes it again. */
  function fail(error: unknown): void {
    isFailing = true;
    fault = describeDiskFault(error);
    tellFault();
    for (const waiter of [...inFlight, ...waiting]) waiter.reject(new Error(fault));
    inFlight = [];
    waiting = [];
  }

  function tellFault(): void {
    health.bad(
      'log',
      isLosing ? `${fault}; the memory for what waits is full, and sentences are lost` : fault,
    );
  }

  async function round(): Promise<void> {
    inFlight = waiting;
    waiting = [];
    const isSyncing = isSyncDue || inFlight.length > 0 || isFailing;
    isSyncDue = false;
    await rollOver();
    if (segment) {
      segment.add(lines.join(''), acts.join(''));
      lines = [];
      acts = [];
      queuedBytes = 0;
      nextAt = undefined;
      await segment.write(isSyncing);
      if (segment.unsafe() > 0) syncSoon();
    }
    for (const waiter of inFlight) waiter.resolve();
    inFlight = [];
  }

  /** The segment for what waits: a new one when the last is long enough and safe. */
  async function rollOver(): Promise<void> {
    if (nextAt === undefined) return;
    if (segment && (nextAt - segment.start >= SEGMENT_SECONDS || segment.size() >= SEGMENT_BYTES)) {
      await segment.write(true);
      await segment.close();
      segment = undefined;
    }
    segment ??= createSegmentWriter(makeSegment(data, nextAt, number++), disk);
  }

  function syncSoon(): void {
    syncTimer ??= setTimeout(() => {
      syncTimer = undefined;
      isSyncDue = true;
      wake();
    }, SYNC_EVERY_MS);
  }

  const waited = (): Promise<void> =>
    new Promise((resolve, reject) => {
      waiting.push({ resolve, reject });
      wake();
    });

  return {
    line(record, at) {
      if (queuedBytes + (segment?.unsafe() ?? 0) > backlog) {
        if (!isLosing) {
          isLosing = true;
          tellFault();
        }
        return;
      }
      nextAt ??= at;
      lines.push(record);
      queuedBytes += record.length;
      wake();
    },
    act(record, at) {
      nextAt ??= at;
      acts.push(record);
      return waited();
    },
    flush: waited,
    async close() {
      isClosing = true;
      clearTimeout(syncTimer);
      syncTimer = undefined;
      endPause();
      isSyncDue = true;
      wake();
      const patient = new Promise<void>((resolve) => setTimeout(resolve, patience).unref());
      await Promise.race([pumping, patient]);
      clearTimeout(syncTimer);
      await segment?.close();
    },
  };
}
