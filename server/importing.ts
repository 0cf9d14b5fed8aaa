import { randomUUID } from 'node:crypto';
import { mkdir, rename, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Command } from '../shared/commands.ts';
import { createEngine } from '../shared/engine.ts';
import { type FoundAnchorage, findAnchorage, type Way, wayOf } from '../shared/logbook/found-anchorage.ts';
import type { NightSummary } from '../shared/logbook/night.ts';
import type { Settings } from '../shared/settings.ts';
import { type Anchorage, markOf, withAnchorage } from './config/anchorage.ts';
import { recordedLines } from './intake/recorded.ts';
import { contentOf } from './journal/content.ts';
import { hostDisk } from './journal/disk.ts';
import { type Act, actRecord, type LineInput, lineRecord, readActRecord } from './journal/records.ts';
import { ACTS, LINES, makeSegment, type Segment } from './journal/segments.ts';
import { checksumsOf } from './logbook/checksums.ts';
import { nightFolder, nightId, nightsFolder } from './logbook/files.ts';
import { rebuild } from './logbook/rebuild.ts';
import type { Store } from './logbook/store.ts';
import { hawseVersion, recorded } from './nights.ts';

/** What is known of a recording made elsewhere. */
export interface Told {
  anchorage?: Anchorage;
  /** Metres veered: with it the mark is found from the track when no anchorage is told. */
  veered?: number;
  mark?: { lat: number; lon: number };
  /** What people call the recording, where the file's own name tells them nothing. */
  name?: string;
  /** The boat that it was recorded on, as far as it is known. */
  settings: Settings;
}

/** The recording cannot become a night; the message says why, and what would help. */
export class ImportError extends Error {
  override name = 'ImportError';
}

type Part = Pick<Segment, 'start' | 'base'>;

const BY = 'import';
const MICRO = 1e-6;
const HOUR = 3600;
/** A mark further ahead of the first sentence than this belongs to another day, as in a replay. */
const MARK_AHEAD = 86_400;
/** Lines of one import at most: a year of a busy bus would be more, and is not one night. */
const MOST_LINES = 30_000_000;
/** The same, and what waits for the disk is written after so many lines. */
const AT_A_TIME = 20_000;

const micro = (at: number): number => Math.round(at * 1e6) / 1e6;

/**
 * Makes a night of recorded sentences: its lines become a journal in the night's own folder, with the orders that a crew would have
 * given (mark, aweigh) beside them; so it is lived again, exported and drawn like any other. Throws ImportError.
 */
export async function importRecording(
  store: Store,
  files: readonly string[],
  told: Told,
): Promise<{ summary: NightSummary; notes: string[] }> {
  const draft = join(nightsFolder(store.data), `.import-${randomUUID()}`);
  await mkdir(draft, { recursive: true });
  try {
    const settings = settingsFor(told);
    const seeks = !told.anchorage && !told.mark;
    const taken = await takeLines(draft, files, settings, seeks);
    const { way, times, segments } = taken;
    const { name } = told;
    const notes =
      name === undefined
        ? taken.notes
        : taken.notes.map((note) => files.reduce((text, file) => text.replaceAll(file, name), note));
    const [first, last] = [times[0], times.at(-1)];
    if (first === undefined || last === undefined)
      throw new ImportError('There is no line in it that could be a recorded sentence.');
    const anchorage = seeks ? found(way, settings) : toldMark(told, first, last);
    const from = free(times, anchorage.from);
    const to = free(times, anchorage.to);
    const id = nightId(from, store.taken);
    const acts: Act[] = [
      { kind: 'settings', at: micro(first - 3 * MICRO), settings },
      { kind: 'command', at: from, by: BY, command: anchorage.command },
      { kind: 'command', at: to, by: BY, command: { do: 'aweigh' } },
    ];
    await addActs(segments, acts);
    await rename(draft, nightFolder(store.data, id));
    await store.writeStart(
      id,
      JSON.stringify({ at: micro(first - 4 * MICRO), state: createEngine(settings) }),
    );
    const made = await rebuild(
      store,
      recorded,
      { id, origin: 'import', from, to },
      { version: hawseVersion(), settings },
    );
    if (!made) {
      await rm(nightFolder(store.data, id), { recursive: true, force: true });
      throw new ImportError('The mark could not be set in it.');
    }
    const { record, samples } = made;
    const { summary } = record.night;
    delete summary.rebuilt;
    const doubts = [...anchorage.words, ...notes];
    if (doubts.length > 0) summary.doubts = doubts;
    await store.rewriteStrips(id, samples);
    await store.writeChecksums(id, await checksumsOf(store.data, recorded, { ...summary, to }));
    await store.write(id, JSON.stringify(record), []);
    await store.enter(summary);
    return { summary, notes };
  } finally {
    await rm(draft, { recursive: true, force: true });
  }
}

function settingsFor({ anchorage, veered, settings }: Told): Settings {
  if (anchorage) return withAnchorage(settings, anchorage);
  return veered === undefined ? settings : { ...settings, cable: { ...settings.cable, veered } };
}

async function put(path: string, data: Buffer): Promise<void> {
  await mkdir(dirname(path), { recursive: true });
  await hostDisk.replace(path, data);
}

/** Writes the lines as a journal, each with a time of its own, and follows where she went when her anchorage is to be found. */
async function takeLines(
  draft: string,
  files: readonly string[],
  settings: Settings,
  seeks: boolean,
): Promise<{ way: Way; times: number[]; segments: Part[]; notes: string[] }> {
  const way = wayOf(settings);
  const times: number[] = [];
  const segments: Part[] = [];
  let hour: number | undefined;
  let text: string[] = [];
  let odd: string[] = [];
  const write = async () => {
    const base = segments.at(-1)?.base;
    if (base === undefined) return;
    if (text.length > 0) await put(base + LINES, Buffer.from(text.join(''), 'latin1'));
    if (odd.length > 0) await put(base + ACTS, Buffer.from(odd.join(''), 'utf8'));
    text = [];
    odd = [];
  };
  let untilPause = AT_A_TIME;
  const recording = recordedLines([...files]);
  for await (const batch of recording.lines) {
    for (const line of batch) {
      const at = micro(Math.max(line.at, (times.at(-1) ?? Number.NEGATIVE_INFINITY) + MICRO));
      if (times.length >= MOST_LINES)
        throw new ImportError(
          `It has more than ${MOST_LINES / 1e6} million lines: cut it into nights first.`,
        );
      if (hour !== Math.floor(at / HOUR)) {
        await write();
        hour = Math.floor(at / HOUR);
        // Room before the first line for what a crew would have told.
        const start = segments.length === 0 ? at - 4 * MICRO : at;
        segments.push(makeSegment(draft, start, segments.length + 1));
      }
      times.push(at);
      const input: LineInput = { kind: 'line', ...line, at };
      const record = lineRecord(input);
      if (record === undefined) odd.push(actRecord(input));
      else text.push(record);
      if (seeks) way.take(input);
      if (--untilPause === 0) {
        untilPause = AT_A_TIME;
        await new Promise((resolve) => setImmediate(resolve));
      }
    }
  }
  await write();
  return { way, times, segments, notes: recording.notes };
}

/** Puts acts where they belong in time, beside lines that could not be kept as recorded sentences. */
async function addActs(segments: readonly Part[], acts: readonly Act[]): Promise<void> {
  for (const [i, { start, base }] of segments.entries()) {
    const end = segments[i + 1]?.start ?? Number.POSITIVE_INFINITY;
    const mine = acts.filter(({ at }) => at >= start && at < end);
    if (mine.length === 0) continue;
    const held = (await contentOf(base + ACTS))?.toString('utf8') ?? '';
    const records = [
      ...held.split('\n').filter((line) => line !== ''),
      ...mine.map((act) => actRecord(act).trimEnd()),
    ];
    const timeOf = (record: string) => readActRecord(record)?.at ?? 0;
    records.sort((a, b) => timeOf(a) - timeOf(b));
    await put(base + ACTS, Buffer.from(`${records.join('\n')}\n`, 'utf8'));
  }
}

/** The mark that was told, and the whole of the recording from there on. */
function toldMark({ anchorage, mark }: Told, first: number, last: number): FoundAnchorage {
  const told = anchorage?.mark.at;
  const at = told !== undefined && told > first && told - first < MARK_AHEAD && told < last ? told : first;
  const { lat, lon, sigma } = anchorage ? markOf(anchorage, at) : { ...mark!, sigma: undefined };
  const how: Extract<Command, { do: 'mark' }>['how'] = {
    lat,
    lon,
    ...(sigma === undefined ? {} : { sigma }),
    ...(anchorage ? { from: 'anchorage-file' as const } : {}),
  };
  return {
    // Just before the line of that time.
    from: micro(at - 2 * MICRO),
    to: micro(last + MICRO),
    command: { do: 'mark', how },
    words: [],
  };
}

function found(way: Way, settings: Settings): FoundAnchorage {
  const anchorage = findAnchorage(way, settings);
  if ('why' in anchorage)
    throw new ImportError(
      `Where the anchor lay is not told, and cannot be found from the track: ${anchorage.why} Tell it with an anchorage file, or by latitude and longitude.`,
    );
  return anchorage;
}

/** The time itself, or the nearest after it that no line has: every input has a time of its own. */
function free(times: readonly number[], at: number): number {
  let [low, high] = [0, times.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle]! < at) low = middle + 1;
    else high = middle;
  }
  let slot = micro(at);
  for (let i = low; times[i] === slot; i++) slot = micro(slot + MICRO);
  return slot;
}
