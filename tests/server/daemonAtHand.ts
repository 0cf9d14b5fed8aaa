import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { pino } from 'pino';
import { openAccess } from '../../server/access/open.ts';
import { type Daemon, type Feeder, startDaemon } from '../../server/daemon.ts';
import { type Clock, createTimeline } from '../../server/timeline.ts';
import type { Event } from '../../shared/events.ts';
import type { Settings } from '../../shared/settings.ts';

export interface AtHand {
  settings: Settings;
  feeder: Feeder;
  data?: string;
  /** UNIX time at which the run begins, and how fast its time runs. */
  start?: number;
  rate?: number;
  /** What its time runs by; the computer's when left out. */
  clock?: Clock;
  tls?: { port?: number };
  /** Built pages; those of dist/ when left out. */
  webRoot?: string;
  raise?: NonNullable<Parameters<typeof startDaemon>[0]['raise']>;
  config?: NonNullable<Parameters<typeof startDaemon>[0]['config']>;
}

export const emptyFolder = (): string => mkdtempSync(join(tmpdir(), 'hawse-test-'));

/** A daemon in this process on a free port of this machine. */
export function daemonAtHand({
  settings,
  feeder,
  data = emptyFolder(),
  start,
  rate,
  clock,
  raise = [],
  config,
  tls,
  webRoot = fileURLToPath(new URL('../../dist/web/', import.meta.url)),
}: AtHand): Promise<Daemon> {
  return startDaemon({
    settings,
    data,
    feeder,
    raise,
    ...(config && { config }),
    startTimeline: (notBefore) =>
      createTimeline(Math.max(start ?? Date.now() / 1000, notBefore), rate, clock),
    server: {
      port: 0,
      host: '127.0.0.1',
      names: [],
      ...(tls && { tls }),
      access: {
        look: 'anyone',
        thisComputer: 'command',
        ...openAccess(data, { now: () => 0, note: () => {} }),
      },
      webRoot,
    },
    log: pino({ level: 'silent' }),
  });
}

export const api = (daemon: Daemon, path: string, method = 'GET', body?: unknown): Promise<Response> =>
  fetch(`http://127.0.0.1:${daemon.port}/api/v1${path}`, {
    method,
    ...(body === undefined
      ? {}
      : { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
  });

/** What alerts did, without what depends on the clock: kinds and states in order. */
export const storyOf = (events: Event[]): string[] =>
  events.flatMap((event) => (event.event === 'alert' ? [`${event.kind} ${event.state}`] : []));
