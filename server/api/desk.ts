import type { Command } from '../../shared/commands.ts';
import type { ConfigSet, ConfigTold } from '../../shared/config.ts';
import type { Answer } from '../../shared/events.ts';
import type { Night, NightSummary, Place } from '../../shared/logbook/night.ts';
import type { ConfigChanged } from '../../shared/messages/config.ts';
import type { ImportQuery, NightRequest } from '../../shared/messages.ts';
import type { Plan } from '../../shared/plan/plan.ts';
import type { PlanRequest } from '../../shared/plan/request.ts';
import type { LatLon } from '../../shared/quantities/estimate.ts';
import type { State } from '../../shared/state.ts';
import type { TideTold } from '../../shared/tides/view.ts';
import type { TrackPoint } from '../../shared/watch/view.ts';

/** What the api asks of whoever keeps the watch. The api holds no engine and knows of the boat only what the desk tells. */
export interface Desk {
  /** Everything a page shows, as of now; plain JSON data. */
  state(): State;
  /** The swept track, oldest first, between two times in UNIX seconds; all of it when they are left out. */
  track(from?: number, to?: number): TrackPoint[];
  /** Does what a person asks; `by` is journalled. Resolves when it is safe on the disk. */
  command(command: Command, by: string): Promise<Answer>;
  health(): { ok: boolean; reasons: string[] };
  /** Prometheus text. */
  metrics(): string | Promise<string>;
  /** Tries every output of the horn; each tells what came of it. None are configured: an empty list. */
  testHorn?(by: string): Promise<{ id: string; ok: boolean; detail: string }[]>;
  /** Works out a plan for an anchorage; a desk that cannot plan leaves it out. */
  plan?(request: PlanRequest): Plan;
  /** Tide stations of an open data set, if this desk has one. */
  stations?: {
    near(lat: number, lon: number): Promise<Had<TideStation[]>>;
    tide(id: string): Promise<Had<TideTold>>;
  };
  /** Nights and places; a desk without a logbook leaves it out. */
  logbook?: DeskLogbook | undefined;
  /** hawse.yaml; a desk that keeps none leaves it out. */
  config?: DeskConfig;
}

/** The configuration as the api asks for it. What cannot be done it throws as a Problem. */
export interface DeskConfig {
  told(): Promise<ConfigTold>;
  /** `tryOnly`: nothing is changed, the answer says what would be. */
  change(set: ConfigSet, tryOnly: boolean, by: string): Promise<ConfigChanged>;
}

/** The logbook as the api asks for it. Where there is no such night, or what is needed is gone, it throws the Problem. */
export interface DeskLogbook {
  /** Newest first. */
  list(limit?: number, before?: string): Promise<{ nights: NightSummary[]; total: number }>;
  open(id: string): Promise<Night>;
  say(id: string, said: NightRequest): Promise<NightSummary>;
  places(near: LatLon, within?: number): Promise<Place[]>;
  /** Between two times, UNIX seconds, oldest first. */
  track(from: number, to: number): Promise<TrackPoint[]>;
  /** Recorded sentences, one character a byte. */
  sentences(id: string): Promise<AsyncIterable<string>>;
  /** JSON lines. */
  inputs(id: string): Promise<AsyncIterable<string>>;
  export(id: string, as: 'gpx' | 'geojson' | 'csv'): Promise<AsyncIterable<string>>;
  /** One page of HTML that stands alone. */
  report(id: string): Promise<string>;
  import(
    recording: AsyncIterable<Buffer>,
    told: ImportQuery,
  ): Promise<{ summary: NightSummary; notes: string[] }>;
}

export type Had<T> = { ok: true; found: T } | { ok: false; why: string };

export interface TideStation {
  id: string;
  name: string;
  /** Metres from where was asked. */
  distance: number;
  lat: number;
  lon: number;
  licence: string;
  attribution: string;
}
