import type { Night, NightSummary, Place, Sample } from '../../shared/logbook/night.ts';
import { placesNear } from '../../shared/logbook/places.ts';
import type { NightRecord } from '../../shared/logbook/record.ts';
import type { LatLon } from '../../shared/quantities/estimate.ts';
import type { Settings } from '../../shared/settings.ts';
import type { TrackPoint } from '../../shared/watch/view.ts';
import { checksumsOf } from './checksums.ts';
import { FORMATS } from './export/export.ts';
import { nightId } from './files.ts';
import { nightOf } from './keep.ts';
import { fixesOf, fixesOfStrips } from './points.ts';
import { rebuild } from './rebuild.ts';
import type { Recorded } from './recorded.ts';
import { beginningOf, journalOf } from './relive.ts';
import { type Store, withSaid } from './store.ts';

/** Nothing of this name, or what is needed for it is not kept any more. */
export class LogbookError extends Error {
  override name = 'LogbookError';
  readonly kind: 'unknown' | 'unavailable';
  constructor(kind: 'unknown' | 'unavailable', message: string) {
    super(message);
    this.kind = kind;
  }
}

/** Nights to read, and what people say about them. */
export interface Logbook {
  /** Newest first. */
  list(limit?: number, before?: string): Promise<{ nights: NightSummary[]; total: number }>;
  /** Throws LogbookError when there is no such night. The recorded sentences are not read. */
  open(id: string): Promise<Night>;
  say(id: string, said: { place?: string | null; notes?: string | null }): Promise<NightSummary>;
  places(near: LatLon, within?: number): Promise<Place[]>;
  /** Where the roller was, from the samples of all nights, oldest first. */
  track(from: number, to: number): Promise<TrackPoint[]>;
  /** Recorded sentences of a night, one character a byte. */
  sentences(id: string): Promise<AsyncIterable<string>>;
  /** JSON lines: the state before the mark as `{"kind":"checkpoint","at":…,"exact":…,"state":…}`, then every input. */
  inputs(id: string): Promise<AsyncIterable<string>>;
  export(id: string, as: keyof typeof FORMATS): Promise<AsyncIterable<string>>;
  /** Makes records that are missing or damaged anew, and checksums that were not reckoned. */
  mend(): Promise<void>;
  /** The night is over: its checksums, and its record anew when that is `stale`. */
  finish(id: string, stale: boolean): Promise<void>;
}

export interface LogbookOptions {
  store: Store;
  recorded: Recorded;
  version: string;
  simulated?: string;
  /** Where the journal tells no settings. */
  settings: Settings;
  /** The night that goes on, when this process keeps one. */
  now?: () => { night: NightRecord['night']; pending: readonly Sample[] } | undefined;
  told(note: string): void;
}

/** So many are listed when nobody says how many. */
const LISTED = 1000;

export function createLogbook(options: LogbookOptions): Logbook {
  const { store, recorded, told } = options;
  const now = () => options.now?.();

  async function summaries(): Promise<NightSummary[]> {
    const live = now()?.night.summary;
    const all = await store.summaries();
    if (!live) return all;
    const mine = withSaid(structuredClone(live), await store.said(live.id));
    const others = all.filter(({ id }) => id !== live.id);
    const place = others.findIndex(({ from }) => from <= mine.from);
    others.splice(place < 0 ? others.length : place, 0, mine);
    return others;
  }

  async function find(id: string): Promise<NightSummary> {
    const found = (await summaries()).find((night) => night.id === id);
    if (found) return found;
    if ((await store.damaged()).includes(id))
      throw new LogbookError(
        'unavailable',
        `The record of ${id} is damaged and is being made anew from the journal.`,
      );
    throw new LogbookError('unknown', `There is no night "${id}" in the logbook.`);
  }

  async function open(id: string): Promise<Night> {
    const live = now();
    if (live?.night.summary.id === id) {
      const { summary, ...rest } = structuredClone(live.night);
      const strips = await store.strips(id);
      const last = strips.at(-1)?.at ?? Number.NEGATIVE_INFINITY;
      strips.push(...live.pending.filter(({ at }) => at > last));
      return nightOf({ ...rest, summary: withSaid(summary, await store.said(id)) }, strips, []);
    }
    const summary = await find(id);
    const record = await store.record(id);
    if (!record)
      throw new LogbookError('unavailable', `The record of ${id} is damaged and is being made anew.`);
    return nightOf({ ...record.night, summary }, await store.strips(id), (await store.checksums(id)) ?? []);
  }

  async function* textOf(night: NightSummary): AsyncGenerator<string> {
    for await (const { text } of recorded.sentences(
      journalOf(store.data, night),
      night.from,
      night.to ?? night.upTo,
    ))
      yield text;
  }

  /** Whether any sentence of the night is still kept. */
  async function isKept(night: NightSummary): Promise<boolean> {
    for await (const _ of textOf(night)) return true;
    return false;
  }

  async function kept(id: string): Promise<NightSummary> {
    const night = await find(id);
    if (await isKept(night)) return night;
    throw new LogbookError('unavailable', `The recorded sentences of ${id} are not kept any more.`);
  }

  async function* inputLines(night: NightSummary): AsyncGenerator<string> {
    const { at, state, exact } = await beginningOf(store, recorded, night, options.settings);
    yield `${JSON.stringify({ kind: 'checkpoint', at, exact, state })}\n`;
    for await (const input of recorded.inputs(journalOf(store.data, night), at, night.to ?? night.upTo))
      yield `${JSON.stringify(input)}\n`;
  }

  async function renew(night: Pick<NightSummary, 'id' | 'origin' | 'from' | 'to'>): Promise<void> {
    const made = await rebuild(store, recorded, night, options);
    if (!made) {
      told(`The record of night ${night.id} is lost, and the journal holds nothing to make it anew from.`);
      return;
    }
    const { record, samples } = made;
    await store.make(night.id);
    await store.rewriteStrips(night.id, samples);
    await store.write(night.id, JSON.stringify(record), []);
    await store.enter(withSaid(record.night.summary, await store.said(night.id)));
  }

  async function checksum(id: string): Promise<void> {
    const night = await find(id);
    const { to } = night;
    if (to === undefined || (await store.checksums(id))) return;
    await store.writeChecksums(id, await checksumsOf(store.data, recorded, { ...night, to }));
  }

  return {
    async list(limit = LISTED, before) {
      const all = await summaries();
      const first = before === undefined ? 0 : all.findIndex(({ id }) => id < before);
      return { nights: first < 0 ? [] : all.slice(first, first + limit), total: all.length };
    },
    open,
    async say(id, told) {
      const night = await find(id);
      const said = { ...(await store.said(id)), ...told };
      for (const key of ['place', 'notes'] as const) if (said[key]?.trim() === '') said[key] = null;
      await store.writeSaid(id, said);
      await store.enter(withSaid((await store.record(id))?.night.summary ?? night, said));
      return find(id);
    },
    async places(near, within) {
      // Earlier nights: the one that goes on is no news to whoever asks.
      const live = now()?.night.summary.id;
      return placesNear(
        (await summaries()).filter(({ id }) => id !== live),
        near,
        within,
      );
    },
    async track(from, to) {
      const points: TrackPoint[] = [];
      for (const night of (await summaries()).reverse()) {
        if (night.from > to || (night.to ?? night.upTo) < from) continue;
        for (const { at, lat, lon, heading, depth, windSpeed } of (await open(night.id)).strips) {
          if (lat === undefined || lon === undefined || at < from || at > to) continue;
          points.push({
            lat,
            lon,
            at,
            ...(heading === undefined ? {} : { heading }),
            ...(depth === undefined ? {} : { depth }),
            ...(windSpeed === undefined ? {} : { wind: windSpeed }),
          });
        }
      }
      return points;
    },
    sentences: async (id) => textOf(await kept(id)),
    inputs: async (id) => inputLines(await kept(id)),
    async export(id, as) {
      const night = await open(id);
      const { summary, strips } = night;
      if (await isKept(summary))
        return FORMATS[as]({ night, fixes: fixesOf(store, recorded, summary, options.settings) });
      const remark = `The recorded sentences are not kept any more: the track has a point every ${night.step} s.`;
      const fixes = (async function* () {
        yield* fixesOfStrips(strips);
      })();
      return FORMATS[as]({ night, remark, fixes });
    },
    async mend() {
      const live = now()?.night.summary.id;
      for (const id of await store.damaged()) {
        if (id === live) continue;
        const from = Date.parse(`${id.slice(0, 13)}:${id.slice(13, 15)}:00Z`) / 1000;
        await renew({ id, origin: (await isImport(id)) ? 'import' : 'watch', from });
      }
      if (store.known().length === 0) await findNights();
      for (const night of store.known()) {
        if (night.id === live) continue;
        // It was going on when its record was left behind.
        if (night.to === undefined) await renew(night);
        await checksum(night.id);
      }
    },
    async finish(id, stale) {
      if (stale) await renew(await find(id));
      await checksum(id);
    },
  };

  /** An import has a journal of its own in its folder. */
  async function isImport(id: string): Promise<boolean> {
    for await (const _ of recorded.inputs(journalOf(store.data, { id, origin: 'import' }), 0)) return true;
    return false;
  }

  /** A journal without a logbook, as an older hawse left it, or one whose logbook was lost: its nights are found by the orders in it. */
  async function findNights(): Promise<void> {
    const open = now()?.night.summary.from;
    let isOpen = false;
    for (const act of await recorded.acts(store.data, 0)) {
      if (act.kind !== 'command') continue;
      const { command, at } = act;
      if (command.do === 'aweigh') isOpen = false;
      if (command.do !== 'mark' || isOpen || (open !== undefined && at >= open)) continue;
      isOpen = true;
      const id = nightId(at, store.taken);
      await renew({ id, origin: 'watch', from: at });
    }
  }
}
