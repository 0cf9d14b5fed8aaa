import type { Logger } from 'pino';
import type { Answer, Event } from '../shared/events.ts';
import type { Input } from '../shared/input.ts';
import { plan } from '../shared/plan/plan.ts';
import type { Settings } from '../shared/settings.ts';
import { snapshot } from '../shared/snapshot.ts';
import type { AccessPorts } from './api/access.ts';
import { type Api, createApi } from './api/api.ts';
import type { Desk } from './api/desk.ts';
import { createHorn, type Horn } from './horn.ts';
import { openJournal } from './journal/journal.ts';
import { createKeeper, type Keeper, restoreEngine } from './keeper.ts';
import { createPhoneWatch } from './phone-watch.ts';
import type { OutputConfig } from './raise/outputs.ts';
import type { Timeline } from './timeline.ts';
import { health, metrics } from './vitals.ts';

/** What brings sentences: the instruments, or the simulator. Returns how to stop. */
export type Feeder = (sinks: Sinks, timeline: Timeline) => { stop(): Promise<void> };

export interface Sinks {
  line(id: string, text: string): void;
  link(id: string, up: boolean, detail: string): void;
}

export interface DaemonOptions {
  settings: Settings;
  /** Folder of the journal. */
  data: string;
  /** The timeline of this run; it must not begin before the last input that the journal holds. */
  startTimeline(notBefore: number): Timeline;
  feeder: Feeder;
  server: { port: number; host: string; names: string[]; access: AccessPorts; webRoot: string };
  /** How alerts leave this computer, whatever page is open. */
  raise?: readonly OutputConfig[];
  /** Name of the simulated anchorage, when it is one. */
  simulated?: string;
  log: Logger;
}

export interface Daemon {
  addresses: string[];
  /** Those of them that phones can open. */
  outside: string[];
  port: number;
  keeper: Keeper;
  /** Says goodbye to the pages, stops the inputs, and leaves a checkpoint. */
  stop(reason: string): Promise<void>;
}

const TICK_MS = 250;
const CHECKPOINT_MS = 60_000;
/** Bytes that must be free on the disk of the journal: a week of ordinary instruments (1 GB a month at 20 sentences/s). */
const LEAST_FREE = 250e6;

/** Starts the watch: journal, engine, pages, inputs, in this order. Rejects when the port or the data folder can't be had. */
export async function startDaemon(options: DaemonOptions): Promise<Daemon> {
  const { settings, log } = options;
  let diskFault: string | undefined;
  const tellDisk = (fault: string | undefined) => {
    if (fault === diskFault) return;
    diskFault = fault;
    if (fault) log.error({ fault }, 'the disk fails the journal');
    const text = fault
      ? `The log cannot be written: ${fault}. What happens now would be lost.`
      : 'The log is written again.';
    queueMicrotask(() =>
      send({ kind: 'fault', alert: 'disk', raised: fault !== undefined, priority: 'alarm', text }),
    );
  };
  const journal = await openJournal(options.data, {
    onfault: tellDisk,
    onrecovered: () => tellDisk(undefined),
  });
  const { engine, notes } = await restoreEngine(journal, settings);
  for (const note of notes) log.warn({ note }, 'the journal was damaged');
  const timeline = options.startTimeline(engine.now ?? 0);

  let api: Api | undefined;
  let horn: Horn | undefined;
  let lastTrackPoint = engine.watch.track.at(-1)?.at ?? 0;
  let broken: string | undefined;
  let diskLow = false;
  const keeper = createKeeper(engine, { journal, timeline, heard, broken: breakdown });

  function heard(events: Event[], input: Input): void {
    for (const event of events) {
      if (event.event === 'alert') log.info(event, 'alert');
      api?.event(event);
    }
    if (input.kind === 'command') log.info({ command: input.command, by: input.by }, 'command');
    const point = keeper.engine().watch.track.at(-1);
    if (point && point.at > lastTrackPoint) {
      lastTrackPoint = point.at;
      api?.trackPoint(point);
    }
    api?.changed();
  }

  /** A broken invariant is an alarm, not a log line, and never ends the watch. */
  function breakdown(error: unknown): void {
    log.error({ err: error }, 'the engine met an error of its own');
    if (broken !== undefined) return;
    const text = `hawse met an error of its own (${(error as Error)?.message ?? error}). Keep watch by other means and restart it.`;
    broken = text;
    queueMicrotask(() => send({ kind: 'fault', alert: 'daemon', raised: true, priority: 'alarm', text }));
  }

  function send(input: Parameters<Keeper['feed']>[0]): void {
    keeper.feed(input).catch((error) => log.error({ err: error }, 'an input was not taken'));
  }

  const phones = createPhoneWatch({
    data: options.data,
    open: () => api?.phones() ?? [],
    phase: () => keeper.engine().watch.phase,
    held: engine.faults.some(({ kind, subject }) => kind === 'daemon' && subject === 'phones'),
    tell(raised, text) {
      send({ kind: 'fault', alert: 'daemon', subject: 'phones', raised, priority: 'warning', text });
      api?.changed();
    },
    trouble: (error) => log.error({ err: error }, 'who is armed cannot be kept over a restart'),
  });

  const desk: Desk = {
    state: () => ({
      ...snapshot(keeper.engine(), keeper.now()),
      ...(options.simulated ? { simulated: options.simulated } : {}),
      pages: [...(api?.pages() ?? []), ...phones.gone()],
      ...(horn && options.raise?.length ? { outputs: horn.views() } : {}),
    }),
    track: (from = 0, to = Number.POSITIVE_INFINITY) =>
      keeper.engine().watch.track.filter((point) => point.at >= from && point.at <= to),
    async command(command, by): Promise<Answer> {
      const answer = await keeper.feed({ kind: 'command', by, command });
      if (answer?.ok) keeper.checkpoint().catch((error) => log.error({ err: error }, 'no checkpoint'));
      return (
        answer ?? { ok: false, problem: 'refused', why: 'hawse met an error of its own; see its alert.' }
      );
    },
    plan,
    testHorn: (by) => horn?.test(by) ?? Promise.resolve([]),
    health: () => health(keeper.engine(), keeper.now(), diskFault),
    metrics: () => metrics(keeper.engine(), keeper.now()),
  };
  api = await createApi({ desk, ...options.server, log });
  const { addresses, outside, port } = await api
    .listen(options.server.port, options.server.host)
    .catch(async (error) => {
      await Promise.allSettled([api?.close(), journal.close()]);
      throw error;
    });

  send({ kind: 'settings', settings });
  horn = createHorn({
    outputs: options.raise ?? [],
    engine: keeper.engine,
    now: keeper.now,
    pages: () => api?.pages() ?? [],
    send,
    command: (act, alert, by) => desk.command({ do: act, alert }, by),
    changed: () => api?.changed(),
    remark: (text) => log.warn({ text }, 'the horn'),
    broken: () => broken,
  });
  const sinks: Sinks = {
    line: (source, text) => send({ kind: 'line', source, text }),
    link: (source, up, detail) => send({ kind: 'link', source, up, detail }),
  };
  const feeder = options.feeder(sinks, timeline);
  const lookAtDisk = async () => {
    const free = await journal.freeBytes();
    const low = free !== undefined && free < LEAST_FREE;
    if (low === diskLow) return;
    diskLow = low;
    const left = `${Math.round((free ?? 0) / 1e6)} MB are left on the disk of the log`;
    const text = low ? `${left}: make room before the log stops.` : `${left}.`;
    send({ kind: 'fault', alert: 'disk', subject: 'room', raised: low, priority: 'warning', text });
  };
  void lookAtDisk();
  const ticker = setInterval(() => {
    keeper.tick();
    phones.look();
    horn?.look();
  }, TICK_MS);
  const saver = setInterval(() => {
    void lookAtDisk();
    keeper.checkpoint().catch((error) => log.error({ err: error }, 'no checkpoint'));
  }, CHECKPOINT_MS);

  return {
    addresses,
    outside,
    port,
    keeper,
    async stop(reason) {
      clearInterval(ticker);
      clearInterval(saver);
      await Promise.all([feeder.stop(), horn?.stop()]);
      await api.goodbye(reason);
      await keeper.checkpoint().catch((error) => log.error({ err: error }, 'no checkpoint'));
      await journal.close();
      await api.close();
    },
  };
}
