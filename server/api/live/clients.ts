import type { Logger } from 'pino';
import type { RawData, WebSocket } from 'ws';
import { mayDo } from '../../../shared/access.ts';
import type { PageView } from '../../../shared/state.ts';
import type { Standing } from '../access.ts';
import { cleanName } from '../author.ts';
import type { Counters } from '../counters.ts';
import { readFrame, tooMany } from './frames.ts';

/** A page whose socket is open. */
interface Client {
  socket: WebSocket;
  view: PageView;
  standing: Standing;
  /** Given by the browser itself; undefined until its first pulse. */
  phone?: string;
  /** Monotonic time of its last pulse, ms. */
  heardMs: number;
  /** Beats since its last pulse, and since it last took a message that was new then. */
  beatsWithoutPulse: number;
  beatsDeaf: number;
  /** Number of the latest message that it has taken, as told. */
  taken?: number;
  badFrames: number;
  framesThisBeat: number;
  /** Beats since the last sign of life of the connection, be it the browser's own answer to a ping. */
  silentBeats: number;
}

/** Bytes that may wait for a page whose phone sleeps, before it is cut off. */
const MOST_WAITING = 1024 * 1024;
const BAD_FRAMES = 20;
const FRAMES_A_BEAT = 50;
const SILENT_BEATS = 15;
/** Pulses by page script that may be missing before the page is not watching: the browser answers pings even for a frozen page. */
const MISSED_PULSES = 3;
/** A page that does not read does not answer to a close either. */
const CLOSE_MS = 1000;

export const CLOSED = {
  stalled: 4008,
  badFrames: 4002,
  notAllowed: 4003,
  goingAway: 1001,
  ownError: 1011,
} as const;

export interface ClientPorts {
  counters: Counters;
  log: Logger;
  now(): number;
  /** Number of the latest message to all pages. */
  latest(): number;
  /** A message to one page, see the publisher. */
  aside(type: string, members: string): string;
  /** The list of pages is different now. */
  changed(): void;
  shown(signal: number, by: string): void;
}

export function createClients({ counters, log, now, latest, aside, changed, shown }: ClientPorts) {
  const clients = new Map<string, Client>();
  let lastId = 0;
  /** Number of the latest message at the beat before. */
  let latestAtBeat = latest();

  function add(socket: WebSocket, page: string, name: string, standing: Standing): void {
    const id = `page${++lastId}`;
    const view: PageView = {
      id,
      name: cleanName(name),
      page,
      visible: false,
      sound: false,
      armed: false,
      wakeLock: 'absent',
      silent: false,
      mayAnswer: mayDo(standing.role, 'acknowledge'),
      lastAt: now(),
    };
    const client: Client = {
      socket,
      view,
      standing,
      heardMs: performance.now(),
      beatsWithoutPulse: 0,
      beatsDeaf: 0,
      badFrames: 0,
      framesThisBeat: 0,
      silentBeats: 0,
    };
    clients.set(id, client);
    const alive = () => {
      client.silentBeats = 0;
    };
    socket.on('pong', alive);
    socket.on('message', (data: RawData, binary: boolean) => {
      alive();
      try {
        hear(client, data, binary);
      } catch (error) {
        log.error({ err: error }, 'a frame of a page met an error of hawse');
      }
    });
    // Frames that are too long or break the protocol; ws closes the socket itself.
    socket.on('error', () => counters.badFrames.inc({ reason: 'protocol' }));
    socket.on('close', () => {
      clients.delete(id);
      changed();
    });
    changed();
  }

  function hear(client: Client, data: RawData, binary: boolean): void {
    if (client.socket.readyState !== client.socket.OPEN) return;
    const frame = ++client.framesThisBeat > FRAMES_A_BEAT ? tooMany() : readFrame(String(data), binary);
    if (!frame.ok) {
      counters.badFrames.inc({ reason: frame.reason });
      client.socket.send(aside('refused', `"problem":${JSON.stringify(frame.problem.details())}`));
      if (++client.badFrames >= BAD_FRAMES) drop(client, 'badFrames', 'too many bad frames');
      return;
    }
    const { view } = client;
    const { message } = frame;
    if (message.type === 'shown') {
      // Somebody who may only look must not make the foredeck believe that the helm knows.
      if (view.page === HELM && mayDo(client.standing.role, 'acknowledge')) shown(message.signal, view.name);
      return;
    }
    view.visible = message.visible;
    view.sound = message.sound;
    view.armed = message.armed ?? false;
    view.wakeLock = message.wakeLock ?? 'absent';
    set(view, 'charging', message.charging);
    set(view, 'battery', message.battery);
    if (message.name !== undefined) view.name = cleanName(message.name);
    view.lastAt = now();
    client.heardMs = performance.now();
    client.phone = message.phone ?? view.id;
    client.beatsWithoutPulse = 0;
    if (message.seq !== undefined) client.taken = message.seq;
    view.silent = isSilent(client);
    changed();
  }

  /** At every beat: which pages have missed their pulses, or take nothing any more of what they are told. */
  function countBeat(client: Client): void {
    client.beatsWithoutPulse++;
    client.beatsDeaf = client.taken === undefined || client.taken >= latestAtBeat ? 0 : client.beatsDeaf + 1;
    const silent = isSilent(client);
    if (silent === client.view.silent) return;
    client.view.silent = silent;
    log.info({ page: client.view }, silent ? 'a page is not watching' : 'a page watches again');
    changed();
  }

  function drop({ socket, view }: Client, why: keyof typeof CLOSED, words: string): void {
    counters.droppedSockets.inc({ reason: why });
    log.info({ page: view, why }, 'a page was cut off');
    clients.delete(view.id);
    socket.close(CLOSED[why], words);
    setTimeout(() => socket.terminate(), CLOSE_MS).unref();
  }

  function broadcast(text: string): void {
    for (const client of clients.values()) {
      client.socket.send(text);
      if (client.socket.bufferedAmount > MOST_WAITING)
        drop(client, 'stalled', 'this page does not read what it is told');
    }
  }

  return {
    add,
    broadcast,
    size: () => clients.size,
    dropKey(id: string): void {
      for (const client of [...clients.values()])
        if (client.standing.key?.id === id) drop(client, 'notAllowed', 'key-taken-away');
    },
    views: (): PageView[] => [...clients.values()].map(({ view }) => ({ ...view })),
    /** Pages that have sent a pulse, with what tells phones apart and when they did. */
    phones: (): OpenPhone[] =>
      [...clients.values()].flatMap(({ view, phone, heardMs }) =>
        phone === undefined ? [] : [{ view: { ...view }, phone, heardMs }],
      ),
    helms: () =>
      [...clients.values()]
        .filter(({ view }) => view.page === HELM)
        .map(({ view, standing }) => ({
          name: view.name,
          visible: view.visible,
          mayAnswer: mayDo(standing.role, 'acknowledge'),
        })),
    /** To be called every beat: finds connections that are gone although nobody has closed them. */
    check(): void {
      for (const client of [...clients.values()]) {
        client.framesThisBeat = 0;
        countBeat(client);
        if (++client.silentBeats > SILENT_BEATS) {
          counters.droppedSockets.inc({ reason: 'silent' });
          clients.delete(client.view.id);
          client.socket.terminate();
        } else client.socket.ping();
      }
      latestAtBeat = latest();
    },
    /** Ends all of them, and waits until they have read what was sent or `limitMs` is over. */
    async end(words: string, limitMs: number): Promise<void> {
      const open = [...clients.values()].map(({ socket }) => socket);
      const closed = open.map((socket) => {
        socket.close(CLOSED.goingAway, words);
        return new Promise((resolve) => socket.once('close', resolve));
      });
      const timer = setTimeout(() => {
        for (const socket of open) socket.terminate();
      }, limitMs);
      await Promise.all(closed);
      clearTimeout(timer);
    },
  };
}

const isSilent = ({ beatsWithoutPulse, beatsDeaf }: Client): boolean =>
  beatsWithoutPulse > MISSED_PULSES || beatsDeaf > MISSED_PULSES;

function set<K extends 'charging' | 'battery'>(view: PageView, member: K, value: PageView[K]): void {
  if (value === undefined) delete view[member];
  else view[member] = value;
}

/** A page that has sent a pulse. */
export interface OpenPhone {
  view: PageView;
  /** The same whenever that browser comes back. Not told to other pages. */
  phone: string;
  /** Monotonic time of its last pulse, ms. */
  heardMs: number;
}

/** Page that stands at the helm while weighing. */
const HELM = 'weigh';
