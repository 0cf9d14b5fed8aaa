import { readFile, truncate } from 'node:fs/promises';
import type { Input } from '../../shared/input.ts';
import { listCheckpoints } from './checkpoints.ts';
import { readActRecord, readLineRecord } from './records.ts';
import { ACTS, LINES, listSegments, type Segment } from './segments.ts';

type Told = (note: string) => void;

/**
 * Every input that the journal in the folder `data` holds, in the order in which the engine took them: those after `from`, up to
 * and with `to` (UNIX seconds). What is damaged is left out and told.
 */
export async function* journalInputs(
  data: string,
  from = Number.NEGATIVE_INFINITY,
  to = Number.POSITIVE_INFINITY,
  told: Told = () => {},
): AsyncGenerator<Input> {
  const segments = await listSegments(data);
  // A segment starts within the second that names it: the last that began surely before `from` leaves those before it out.
  const first = Math.max(
    0,
    segments.findLastIndex(({ start }) => start + 1 <= from),
  );
  const chosen = segments.slice(first);
  const lines = records(chosen, LINES, 'latin1', readLineRecord, told);
  const acts = records(chosen, ACTS, 'utf8', readActRecord, told);
  let line = await lines.next();
  let act = await acts.next();
  let last = from;
  let misplaced = 0;
  while (!line.done || !act.done) {
    const isLine = act.done || (!line.done && line.value.at < act.value.at);
    const input = (isLine ? line.value : act.value) as Input;
    if (isLine) line = await lines.next();
    else act = await acts.next();
    if (input.at > to) break;
    if (input.at > last) {
      last = input.at;
      yield input;
    } else if (input.at > from) misplaced++;
  }
  if (misplaced > 0)
    told(`${misplaced} inputs in the journal of ${data} were not in the order of time and are left out.`);
}

/** The readable records of one kind of file, through all segments. */
async function* records<T>(
  segments: Segment[],
  ending: string,
  encoding: 'latin1' | 'utf8',
  read: (record: string) => T | undefined,
  told: Told,
): AsyncGenerator<T> {
  for (const { base } of segments) {
    const path = base + ending;
    const text = await content(path, encoding, told);
    let damaged = 0;
    let from = 0;
    for (let end = text.indexOf('\n'); end >= 0; end = text.indexOf('\n', from)) {
      const record = read(text.slice(from, end));
      from = end + 1;
      if (record === undefined) damaged++;
      else yield record;
    }
    if (from < text.length) told(`${path}: its last record was not finished and is left out.`);
    if (damaged > 0) told(`${path}: ${damaged} records are damaged and left out.`);
  }
}

/** A segment is small: it is read whole. */
async function content(path: string, encoding: 'latin1' | 'utf8', told: Told): Promise<string> {
  try {
    return await readFile(path, encoding);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') told(`${path}: ${(error as Error).message}`);
    return '';
  }
}

/** Takes off the end of the last segment what a power cut left unfinished. What cannot be repaired is told. */
export async function repairLast(data: string, told: Told): Promise<void> {
  const last = (await listSegments(data)).at(-1);
  if (!last) return;
  for (const path of [last.base + LINES, last.base + ACTS]) {
    const text = await content(path, 'latin1', told);
    const end = text.lastIndexOf('\n') + 1;
    if (end === text.length) continue;
    try {
      await truncate(path, end);
      told(`${path}: ${text.length - end} bytes of an unfinished record at its end were taken off.`);
    } catch (error) {
      told(`${path}: the unfinished record at its end could not be taken off: ${(error as Error).message}`);
    }
  }
}

/** The latest time that the journal in `data` knows, UNIX seconds; undefined when there is none. */
export async function latestTime(data: string): Promise<number | undefined> {
  let latest = (await listCheckpoints(data))[0]?.at;
  const ignore = () => {};
  for (const segment of (await listSegments(data)).reverse()) {
    let last: number | undefined;
    const later = (at: number) => Math.max(at, last ?? at);
    for await (const { at } of records([segment], LINES, 'latin1', readLineRecord, ignore)) last = later(at);
    for await (const { at } of records([segment], ACTS, 'utf8', readActRecord, ignore)) last = later(at);
    if (last === undefined) continue;
    latest = Math.max(last, latest ?? last);
    break;
  }
  return latest;
}
