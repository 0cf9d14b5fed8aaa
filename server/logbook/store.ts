import { mkdir, readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Checksum, NightSummary, Sample } from '../../shared/logbook/night.ts';
import type { NightRecord } from '../../shared/logbook/record.ts';
import { NIGHT_ID, nightSummary } from '../../shared/messages.ts';
import {
  append,
  CHECKSUMS,
  indexFile,
  nightFolder,
  nightIds,
  readGzipJson,
  readJson,
  SAID,
  START,
  STRIPS,
  SUMMARY,
} from './files.ts';

/** What a crew has said about a night; null: that there is none, whatever the record says. */
export interface Said {
  place?: string | null;
  notes?: string | null;
}

/** The summary with what the crew has said. */
export function withSaid(summary: NightSummary, said: Said): NightSummary {
  const whole = { ...summary };
  for (const key of ['place', 'notes'] as const) {
    const value = said[key];
    if (value === null) delete whole[key];
    else if (value !== undefined) whole[key] = value;
  }
  return whole;
}

/** The state that a night began with, and its time. */
export interface Start {
  at: number;
  state: unknown;
}

/** Nights on the disk. Everything is plain JSON, put in its place whole; a file that is missing or damaged is `undefined`. */
export interface Store {
  data: string;
  /** All nights, newest first, as the index has them; a night that the index does not know is read from its own folder. */
  summaries(): Promise<NightSummary[]>;
  /** The same as last read, oldest first: at once. */
  known(): NightSummary[];
  /** Folders without a summary that can be read. */
  damaged(): Promise<string[]>;
  record(id: string): Promise<NightRecord | undefined>;
  strips(id: string): Promise<Sample[]>;
  said(id: string): Promise<Said>;
  start(id: string): Promise<Start | undefined>;
  checksums(id: string): Promise<Checksum[] | undefined>;
  make(id: string): Promise<void>;
  /** Samples first, then the record that counts on them. */
  write(id: string, record: string, samples: readonly Sample[]): Promise<void>;
  rewriteStrips(id: string, samples: readonly Sample[]): Promise<void>;
  writeSaid(id: string, said: Said): Promise<void>;
  writeStart(id: string, start: string): Promise<void>;
  writeChecksums(id: string, checksums: readonly Checksum[] | undefined): Promise<void>;
  /** Takes a changed summary into the index, in memory and on the disk. */
  enter(summary: NightSummary): Promise<void>;
  taken(id: string): boolean;
}

/** Puts a whole file in the place of an older one, safe from power cuts. */
export type Replace = (path: string, data: Buffer) => Promise<void>;

export async function openStore(data: string, replace: Replace): Promise<Store> {
  const known = new Map<string, NightSummary>();
  const broken = new Set<string>();
  const file = (id: string, name: string) => join(nightFolder(data, id), name);
  const put = (path: string, value: unknown) =>
    replace(path, Buffer.from(`${JSON.stringify(value)}\n`, 'utf8'));
  let writing: Promise<void> = Promise.resolve();

  const index = await readJson<NightSummary[]>(indexFile(data));
  if (Array.isArray(index))
    // Written whole or not at all, so it need not be looked through. A night that was open then has gone on since: it is read anew.
    for (const summary of index)
      if (NIGHT_ID.test(summary?.id) && summary.to !== undefined) known.set(summary.id, summary);

  async function refresh(): Promise<void> {
    const ids = await nightIds(data);
    const present = new Set(ids);
    for (const id of known.keys()) if (!present.has(id)) known.delete(id);
    for (const id of ids) {
      if (known.has(id)) continue;
      const record = await store.record(id);
      if (!record) {
        broken.add(id);
        continue;
      }
      broken.delete(id);
      known.set(id, withSaid(record.night.summary, await store.said(id)));
    }
  }

  function saveIndex(): Promise<void> {
    const write = () => put(indexFile(data), [...known.values()]);
    writing = writing.then(write, write);
    return writing;
  }

  const store: Store = {
    data,
    async summaries() {
      await refresh();
      return [...known.values()].sort((a, b) => b.from - a.from || (a.id < b.id ? 1 : -1));
    },
    known: () => [...known.values()],
    async damaged() {
      await refresh();
      return [...broken].sort();
    },
    async record(id) {
      const record = await readJson<NightRecord>(file(id, SUMMARY));
      return record?.running && nightSummary.safeParse(record.night?.summary).success ? record : undefined;
    },
    async strips(id) {
      const text = await readFile(file(id, STRIPS), 'utf8').catch((error: NodeJS.ErrnoException) => {
        if (error.code === 'ENOENT') return '';
        throw error;
      });
      return samplesIn(text);
    },
    said: async (id) => (await readJson<Said>(file(id, SAID))) ?? {},
    start: (id) => readGzipJson<Start>(file(id, START)),
    checksums: (id) => readJson<Checksum[]>(file(id, CHECKSUMS)),
    make: async (id) => void (await mkdir(nightFolder(data, id), { recursive: true })),
    async write(id, record, samples) {
      if (samples.length > 0) await append(file(id, STRIPS), lines(samples));
      await replace(file(id, SUMMARY), Buffer.from(`${record}\n`, 'utf8'));
    },
    rewriteStrips: (id, samples) => replace(file(id, STRIPS), Buffer.from(lines(samples), 'utf8')),
    writeSaid: (id, said) => put(file(id, SAID), said),
    writeStart: (id, start) => replace(file(id, START), gzipSync(start)),
    writeChecksums: (id, checksums) =>
      checksums ? put(file(id, CHECKSUMS), checksums) : rm(file(id, CHECKSUMS), { force: true }),
    enter(summary) {
      known.set(summary.id, summary);
      return saveIndex();
    },
    taken: (id) => known.has(id) || broken.has(id),
  };
  await refresh();
  return store;
}

const lines = (samples: readonly Sample[]): string =>
  samples.map((sample) => `${JSON.stringify(sample)}\n`).join('');

/** Samples in order of time. One may stand there twice after a power cut, and the last may be cut off. */
function samplesIn(text: string): Sample[] {
  const samples: Sample[] = [];
  for (const line of text.split('\n')) {
    if (line === '') continue;
    try {
      const sample = JSON.parse(line) as Sample;
      if (sample.at > (samples.at(-1)?.at ?? Number.NEGATIVE_INFINITY)) samples.push(sample);
    } catch {} // cut off by a power cut: the record before it is whole
  }
  return samples;
}
