import { mkdir } from 'node:fs/promises';
import type { Logger } from 'pino';
import type { Answer, Event } from '../shared/events.ts';
import type { Input } from '../shared/input.ts';
import { plan } from '../shared/plan/plan.ts';
import type { Settings } from '../shared/settings.ts';
import { snapshot } from '../shared/snapshot.ts';
import type { AccessPorts } from './api/access.ts';
import { type Api, createApi } from './api/api.ts';
import type { Desk } from './api/desk.ts';
import type { ConfigFile } from './config/open.ts';
import { createHorn, type Horn } from './horn.ts';
import type { HostClocks } from './host-clock.ts';
import { bringUp } from './journal/format.ts';
import { openJournal } from './journal/journal.ts';
import { takeLock } from './journal/lock.ts';
import type { Policy } from './journal/retention.ts';
import { createKeeper, type Keeper, restoreEngine } from './keeper.ts';
import type { Room } from './mishaps.ts';
import { createNightWatch, LOGBOOK } from './night-watch.ts';
import { hawseVersion } from './nights.ts';
import { createPhoneWatch } from './phone-watch.ts';
import type { OutputConfig } from './raise/outputs.ts';
import { announce, openSecurity } from './secure.ts';
import { createSelfCare } from './self-care.ts';
import { createSetUp } from './setting-up.ts';
import { stopInOrder } from './stopping.ts';
import { stationsNear, tideOfStation } from './tide-stations/stations.ts';
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
  server: {
    port: number;
    host: string;
    names: string[];
    access: AccessPorts;
    webRoot: string;
    /** https beside http, on that port or on the next; left out: none. */
    tls?: { port?: number | undefined } | false;
    /** Name on the boat's network, without .local. */
    mdns?: string | false;
  };
  /** How long sentences are kept. */
  journal?: Policy;
  /** How the daemon before this one ended, when it did not end well and somebody saw it. */
  ended?: string;
  /** The computer's clocks, when the timeline shall follow them. */
  clocks?: HostClocks;
  /** hawse.yaml, when there is one. */
  config?: ConfigFile;
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
  /** Where phones are led to https, and what they compare; absent: https is not served. */
  trust?: { address: string; secure?: string; fingerprint: string };
  keeper: Keeper;
  /** An exception that nothing else caught: it becomes an alarm, and the watch goes on. */
  met(room: Room, error: unknown): void;
  /** Says goodbye to the pages, stops the inputs, and leaves a checkpoint. */
  stop(reason: string): Promise<void>;
}

const TICK_MS = 250;
const CHECKPOINT_MS = 60_000;
/** A disk can fill quickly when another program runs wild. */
const DISK_MS = 10_000;

/** Starts the watch: journal, engine, pages, inputs, in this order. Rejects when the port or the data folder can't be had, or when another daemon keeps it. */
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
  async function openInForm() {
    const hindered = await bringUp(options.data, `hawse ${hawseVersion()}`);
    if (hindered) log.warn({ hindered }, 'the form of the data folder');
    return openJournal(options.data, { onfault: tellDisk, onrecovered: () => tellDisk(undefined) });
  }
  // A folder that cannot be made is told by the journal, which cannot do without.
  await mkdir(options.data, { recursive: true }).catch(() => undefined);
  const lock = await takeLock(options.data);
  if (lock.trouble) log.warn({ trouble: lock.trouble }, 'the lock of the data folder');
  const journal = await openInForm().catch(async (error) => {
    await lock.release();
    throw error;
  });
  const nights = await createNightWatch({
    data: options.data,
    settings,
    simulated: options.simulated,
    engine: () => keeper.engine(),
    tell: (raised, text) =>
      send({ kind: 'fault', alert: 'daemon', subject: LOGBOOK, raised, priority: 'warning', text }),
    log,
  });
  const { engine, notes } = await restoreEngine(journal, settings, nights.keeper);
  for (const note of notes) log.warn({ note }, 'the journal was damaged');
  const lastRun = { last: engine.now, tidy: !lock.wasLeft, ended: options.ended };
  const timeline = options.startTimeline(engine.now ?? 0);

  let api: Api | undefined;
  let horn: Horn | undefined;
  let lastTrackPoint = engine.watch.track.at(-1)?.at ?? 0;
  const keeper = createKeeper(engine, {
    journal,
    timeline,
    heard,
    nights: nights.keeper,
    broken: (error, room) => care.met(room, error),
  });
  const care = createSelfCare({
    engine: keeper.engine,
    journal,
    policy: options.journal,
    timeline,
    clocks: options.clocks,
    send,
    log,
  });

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

  const setUp = createSetUp({ file: options.config, engine: keeper.engine, feed: keeper.feed });
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
    stations: { near: stationsNear, tide: tideOfStation },
    testHorn: (by) => horn?.test(by) ?? Promise.resolve([]),
    logbook: nights.logbook,
    config: setUp,
    health: () => health(keeper.engine(), keeper.now(), diskFault),
    metrics: () => metrics(keeper.engine(), keeper.now()),
  };
  const { tls, mdns = false, ...web } = options.server;
  const names = mdns === false ? web.names : [...web.names, `${mdns}.local`];
  const isHttpsMissed = () => keeper.engine().faults.some(({ subject }) => subject === 'https');
  const security = tls
    ? await openSecurity({
        data: options.data,
        boat: settings.boat.name,
        names,
        log,
        tell(raised, text) {
          if (raised || isHttpsMissed())
            send({ kind: 'fault', alert: 'daemon', subject: 'https', raised, priority: 'caution', text });
        },
      })
    : undefined;
  api = await createApi({ desk, ...web, names, ...(security && { secure: security.secure }), log });
  const { addresses, outside, port } = await api
    .listen(options.server.port, options.server.host)
    .catch(async (error) => {
      await Promise.allSettled([api?.close(), journal.close()]);
      await lock.release();
      throw error;
    });

  const https = (tls ? tls.port : undefined) ?? (web.port === 0 ? 0 : port + 1);
  await security?.listen(api, { http: port, https }, web.host);
  const announced = announce(mdns, web.host, log);
  send({ kind: 'settings', settings });
  care.begin(lastRun);
  nights.begin(engine.faults);
  horn = createHorn({
    outputs: options.raise ?? [],
    engine: keeper.engine,
    now: keeper.now,
    pages: () => api?.pages() ?? [],
    send,
    command: (act, alert, by) => desk.command({ do: act, alert }, by),
    changed: () => api?.changed(),
    remark: (text) => log.warn({ text }, 'the horn'),
    broken: care.broken,
  });
  const sinks: Sinks = {
    line: (source, text) => send({ kind: 'line', source, text }),
    link: (source, up, detail) => send({ kind: 'link', source, up, detail }),
  };
  let feeder: ReturnType<Feeder> | undefined;
  const guarded = (room: Room, work: () => void) => () => {
    try {
      work();
    } catch (error) {
      care.met(room, error);
    }
  };
  guarded('inputs', () => {
    feeder = options.feeder(sinks, timeline);
  })();
  care.lookAtDisk();
  const saveCheckpoint = () =>
    keeper.checkpoint().catch((error) => log.error({ err: error }, 'no checkpoint'));
  const duties = [
    setInterval(() => keeper.tick(), TICK_MS),
    setInterval(guarded('watch-keeping', care.look), TICK_MS),
    setInterval(guarded('watch-keeping', phones.look), TICK_MS),
    setInterval(guarded('watch-keeping', setUp.look), TICK_MS),
    setInterval(
      guarded('watch-keeping', () => horn?.look()),
      TICK_MS,
    ),
    setInterval(care.lookAtDisk, DISK_MS),
    setInterval(saveCheckpoint, CHECKPOINT_MS),
    setInterval(() => security?.look(), CHECKPOINT_MS),
  ];

  return {
    addresses,
    outside,
    port,
    ...(security && { trust: security.trust() }),
    keeper,
    met: care.met,
    async stop(reason) {
      for (const duty of duties) clearInterval(duty);
      await stopInOrder(
        [
          () => feeder?.stop(),
          () => horn?.stop(),
          () => announced?.stop(),
          () => api?.goodbye(reason),
          saveCheckpoint,
          nights.settled,
          () => journal.close(),
          () => api?.close(),
          () => lock.release(),
        ],
        (error) => log.error({ err: error }, 'not stopped as it should'),
      );
    },
  };
}
