import type { Logger } from 'pino';
import type { RawData, WebSocket } from 'ws';
import type { PageView } from '../../../shared/state.ts';
import { cleanName } from '../author.ts';
import type { Counters } from '../counters.ts';
import { readFrame, tooMany } from './frames.ts';

/** A page whose socket is open. */
interface Client {
  socket: WebSocket;
  view: PageView;
  mayCommand: boolean;
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
/** A page that does not read does not answer to a close either. */
const CLOSE_MS = 1000;

export const CLOSED = { stalled: 4008, badFrames: 4002, goingAway: 1001, ownError: 1011 } as const;

export interface ClientPorts {
  counters: Counters;
  log: Logger;
  now(): number;
  /** A message to one page, see the publisher. */
  aside(type: string, members: string): string;
  /** The list of pages is different now. */
  changed(): void;
  shown(signal: number): void;
}

export function createClients({ counters, log, now, aside, changed, shown }: ClientPorts) {
  const clients = new Map<string, Client>();
  let lastId = 0;

  function add(socket: WebSocket, page: string, name: string, mayCommand: boolean): void {
    const id = `page${++lastId}`;
    const view = { id, name: cleanName(name), page, visible: false, sound: false, lastAt: now() };
    const client: Client = {
      socket,
      view,
      mayCommand,
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
      if (view.page === HELM && client.mayCommand) shown(message.signal);
      return;
    }
    view.visible = message.visible;
    view.sound = message.sound;
    if (message.name !== undefined) view.name = cleanName(message.name);
    view.lastAt = now();
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
    views: (): PageView[] => [...clients.values()].map(({ view }) => ({ ...view })),
    helms: () =>
      [...clients.values()]
        .filter(({ view }) => view.page === HELM)
        .map(({ view, mayCommand }) => ({ name: view.name, visible: view.visible, mayCommand })),
    /** To be called every beat: finds connections that are gone although nobody has closed them. */
    check(): void {
      for (const client of [...clients.values()]) {
        client.framesThisBeat = 0;
        if (++client.silentBeats > SILENT_BEATS) {
          counters.droppedSockets.inc({ reason: 'silent' });
          clients.delete(client.view.id);
          client.socket.terminate();
        } else client.socket.ping();
      }
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

/** Page that stands at the helm while weighing. */
const HELM = 'weigh';
