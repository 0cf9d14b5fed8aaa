import type { IncomingMessage } from 'node:http';
import type { Duplex } from 'node:stream';
import type { Logger } from 'pino';
import { type WebSocket, WebSocketServer } from 'ws';
import { mayDo } from '../../../shared/access.ts';
import type { Event } from '../../../shared/events.ts';
import type { PageView } from '../../../shared/state.ts';
import type { TrackPoint } from '../../../shared/watch/view.ts';
import type { Access, Standing } from '../access.ts';
import { refusal } from '../command.ts';
import type { Counters } from '../counters.ts';
import type { Desk } from '../desk.ts';
import { asProblem, refuseRaw } from '../errors.ts';
import type { HostCheck } from '../hosts.ts';
import { Problem } from '../problem.ts';
import { CLOSED, createClients, type OpenPhone } from './clients.ts';
import { createHelm, type Helm } from './helm.ts';
import { createPublisher } from './publisher.ts';

export const LIVE_PATH = '/live';
const MOST_SOCKETS = 64;
/** Guests who may only look must not take the last places from the skipper's phone. */
const MOST_LOOKING = 48;
/** A pulse with everything in it has 500 bytes. */
const LONGEST_FRAME = 8 * 1024;
const GOODBYE_MS = 1000;

export interface LivePorts {
  desk: Desk;
  access: Access;
  checkHost: HostCheck;
  counters: Counters;
  log: Logger;
  coalesceMs: number;
  /** Milliseconds between two pulses of the daemon. */
  beatMs: number;
  first: number;
}

/** The live socket: who is there, what they are told. */
export interface Live {
  helm: Helm;
  pages(): PageView[];
  phones(): OpenPhone[];
  changed(): void;
  event(event: Event): void;
  trackPoint(point: TrackPoint): void;
  /** Answers a request of the web server to become a WebSocket. */
  upgrade(request: IncomingMessage, socket: Duplex, head: Buffer): void;
  /** Pages that bore that key are closed: they come back as what they are now. */
  dropKey(id: string): void;
  goodbye(reason: string): Promise<void>;
  close(): Promise<void>;
}

export function createLive({ desk, access, checkHost, counters, log, ...timing }: LivePorts): Live {
  const sockets = new WebSocketServer({
    noServer: true,
    clientTracking: false,
    maxPayload: LONGEST_FRAME,
    perMessageDeflate: false,
  });
  const publisher = createPublisher({
    desk,
    log,
    coalesceMs: timing.coalesceMs,
    first: timing.first,
    broadcast: (text) => clients.broadcast(text),
  });
  const helm = createHelm(() => clients.helms());
  const clients = createClients({ counters, log, ...publisher, shown: helm.shown });
  let stopping = false;

  function upgrade(request: IncomingMessage, socket: Duplex, head: Buffer): void {
    try {
      const { searchParams } = callTo(request);
      const standing = access.standing(request);
      admit(mayDo(standing.role, 'acknowledge') ? MOST_SOCKETS : MOST_LOOKING);
      sockets.handleUpgrade(request, socket, head, (page) => welcome(page, searchParams, standing));
    } catch (error) {
      const problem = asProblem(error);
      if (problem.kind === 'own-error') log.error({ err: error }, 'a page met an error of hawse');
      refuseRaw(socket, problem, counters);
    }
  }

  /** Throws a Problem when the request is not for the live socket, or not from a page of this boat. */
  function callTo({ url = '', headers }: IncomingMessage): URL {
    if (url.split('?')[0] !== LIVE_PATH)
      throw new Problem('no-such-call', `The only WebSocket is at ${LIVE_PATH}.`);
    checkHost(headers);
    return new URL(url, 'http://boat');
  }

  /** Throws a Problem when there is no place left. */
  function admit(places: number): void {
    if (stopping) throw new Problem('stopping', 'hawse is stopping: nobody watches until it runs again.');
    if (clients.size() >= places)
      throw new Problem('too-many-sockets', `At most ${places} pages can be open at once. Close some.`);
  }

  function welcome(socket: WebSocket, query: URLSearchParams, standing: Standing): void {
    if (!mayDo(standing.role, 'look')) {
      // Opened and closed, since a page cannot read why a socket was refused.
      socket.on('error', () => socket.terminate());
      socket.close(CLOSED.notAllowed, refusal(standing, 'look').kind);
      return;
    }
    try {
      const missed = publisher.after(sinceOf(query.get('since')));
      const first = missed ? [...missed, publisher.pulse()] : [publisher.snapshot(standing)];
      for (const text of first) {
        if (text === undefined) throw new Error('the state cannot be read');
        socket.send(text);
      }
      clients.add(socket, pageOf(query.get('page')), query.get('name') ?? '', standing);
    } catch (error) {
      log.error({ err: error }, 'a page could not be told the state');
      socket.on('error', () => socket.terminate());
      socket.close(CLOSED.ownError, 'the state cannot be read');
    }
  }

  const beat = setInterval(() => {
    clients.check();
    const pulse = publisher.pulse();
    if (pulse !== undefined) clients.broadcast(pulse);
  }, timing.beatMs);

  return {
    helm,
    upgrade,
    pages: clients.views,
    phones: clients.phones,
    dropKey: clients.dropKey,
    changed: publisher.changed,
    event: publisher.event,
    trackPoint: publisher.trackPoint,
    async goodbye(reason) {
      if (stopping) return;
      stopping = true;
      clearInterval(beat);
      publisher.goodbye(reason);
      await clients.end('hawse is stopping', GOODBYE_MS);
    },
    async close() {
      stopping = true;
      clearInterval(beat);
      publisher.close();
      await clients.end('hawse is stopping', GOODBYE_MS);
    },
  };
}

/** A number that was never given gets a snapshot. */
const sinceOf = (text: string | null): number =>
  text !== null && /^\d{1,16}$/.test(text) ? Number(text) : Number.NaN;

const pageOf = (text: string | null): string =>
  text !== null && /^[a-z][a-z-]{0,19}$/.test(text) ? text : 'unknown';
