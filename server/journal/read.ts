import type { Input } from '../../shared/input.ts';
import { listCheckpoints } from './checkpoints.ts';
import { readActRecord, readLineRecord } from './records.ts';
import { type Found, recordsIn } from './records-in.ts';
import { ACTS, LINES, listSegments, type Segment } from './segments.ts';

type Told = (note: string) => void;

/**
 * Every input that the journal in the folder `data` holds, in the order in which the engine took them: those after `from`, up to
 * and with `to` (UNIX seconds). What is damaged is left out and told.
 *
 * Reading a range is quick: the names of the files are the index (`YYYY-MM-DD/HHMMSS-N` is the second at which a segment began, and the
 * next one tells where it ends), so only segments that touch the range are opened, packed or not, one at a time; a segment is an hour
 * or 8 MB at most. Ending the iteration early reads no further. Segments may be removed, packed or added while this runs.
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
  const chosen = segments.slice(first).filter(({ start }) => start <= to);
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

/** What people and the daemon did, without the received lines, in the order of time. */
export async function journalActs(data: string, from: number, told: Told): Promise<Input[]> {
  const segments = await listSegments(data);
  const first = Math.max(
    0,
    segments.findLastIndex(({ start }) => start + 1 <= from),
  );
  const found: Input[] = [];
  for await (const act of records(segments.slice(first), ACTS, 'utf8', readActRecord, told))
    if (act.at > from) found.push(act);
  return found;
}

/** The readable records of one kind of file, through all segments. */
async function* records<T extends { at: number }>(
  segments: Segment[],
  ending: string,
  encoding: 'latin1' | 'utf8',
  read: (record: string) => T | undefined,
  told: Told,
): AsyncGenerator<T> {
  for (const [i, { base, start }] of segments.entries()) {
    const path = base + ending;
    const found = await inFile(path, encoding, read, start, endOf(segments, i), told);
    if (!found) continue;
    yield* found.records;
    if (found.unfinished > 0) told(`${path}: its last record was not finished and is left out.`);
    if (found.damaged > 0) told(`${path}: ${found.damaged} records are damaged and left out.`);
  }
}

/** A time that no record of segment `i` can have: the next one of the same run began before that. */
export function endOf(segments: readonly Segment[], i: number): number {
  const [segment, next] = [segments[i], segments[i + 1]];
  // Numbers count on: where they do not, times were muddled, and the order of the records decides.
  return segment && next && next.number > segment.number ? next.start + 1 : Number.POSITIVE_INFINITY;
}

async function inFile<T extends { at: number }>(
  path: string,
  encoding: 'latin1' | 'utf8',
  read: (record: string) => T | undefined,
  start: number,
  end: number,
  told: Told,
): Promise<Found<T> | undefined> {
  try {
    return await recordsIn(path, encoding, read, start, end);
  } catch (error) {
    told(`${path} cannot be read and is left out: ${(error as Error).message}`);
    return undefined;
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
