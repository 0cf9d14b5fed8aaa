import { connect, type Socket } from 'node:net';
import { createFramer } from './framer.ts';
import { createLink, describeFault, type Intake, type Sinks } from './input.ts';

export interface TcpOptions {
  id: string;
  /** "host:port"; an IPv6 address stands in brackets. */
  tcp: string;
  /** 0 ≤ j < 1: spreads the tries of several clients. */
  jitter?: () => number;
  /** Shortest and longest wait between two tries, milliseconds. */
  wait?: { shortest: number; longest: number };
  /** Given up when a connection takes longer, milliseconds. */
  timeout?: number;
  dial?: typeof connect;
}

const WAIT = { shortest: 1000, longest: 15_000 };
/** A gateway that lost its power says no goodbye: the system asks after so long a silence, and gives up ten seconds later. */
const PROBE_AFTER_MS = 10_000;

/**
 * Sentences from a gateway's TCP server. When the connection cannot be had or ends it is tried again for ever, each wait twice as
 * long as the last up to the longest. Whether the sentences are any use is not judged here.
 */
export function createTcp(options: TcpOptions, sinks: Sinks): Intake {
  const { id, tcp, jitter = Math.random, wait = WAIT, timeout = 5000, dial = connect } = options;
  const { host, port } = splitHostPort(tcp);
  const link = createLink(id, sinks);
  let socket: Socket | undefined;
  let again: NodeJS.Timeout | undefined;
  let tries = 0;
  let stopped = false;

  function open(): void {
    const framer = createFramer({
      online: (line) => sinks.line(id, line),
      onoverlong: (bytes) => sinks.overlong(id, bytes),
    });
    const made = dial({ host, port, keepAlive: true, keepAliveInitialDelay: PROBE_AFTER_MS });
    socket = made;
    let isConnected = false;
    let fault: string | undefined;
    const patience = setTimeout(
      () => made.destroy(Object.assign(new Error('no answer'), { code: 'ETIMEDOUT' })),
      timeout,
    );
    made.on('connect', () => {
      clearTimeout(patience);
      isConnected = true;
      link.tell(true, `connected to ${tcp}`);
    });
    made.on('data', (chunk) => {
      tries = 0; // A server that accepts and drops at once is not yet a success.
      if (!stopped) framer.push(chunk);
    });
    made.on('error', (error) => {
      fault = describeFault(error);
    });
    made.on('close', () => {
      clearTimeout(patience);
      if (stopped) return;
      framer.flush();
      link.tell(
        false,
        isConnected
          ? `connection to ${tcp} lost: ${fault ?? 'the other side closed it'}`
          : `${tcp}: ${fault ?? 'no connection'}`,
      );
      again = setTimeout(open, pause(tries++, jitter(), wait));
    });
  }

  return {
    id,
    start: open,
    async stop() {
      stopped = true;
      link.mute();
      clearTimeout(again);
      const open = socket;
      socket = undefined;
      if (open && !open.closed) {
        await new Promise<void>((resolve) => open.once('close', () => resolve()).destroy());
      }
    },
  };
}

/** Milliseconds before try number `tries` (0 is the first): doubled each time up to the longest, less up to a quarter by `jitter`. */
export function pause(tries: number, jitter: number, { shortest, longest } = WAIT): number {
  const full = Math.min(longest, shortest * 2 ** Math.min(tries, 20));
  return Math.max(shortest, full * (1 - jitter / 4));
}

/** "host:port" or "[address]:port" in its parts. Throws RangeError when it is neither. */
export function splitHostPort(text: string): { host: string; port: number } {
  const found = /^(?:\[([^\]]+)\]|([^[\]]+)):(\d{1,5})$/.exec(text);
  const port = Number(found?.[3]);
  if (!found || port < 1 || port > 65_535)
    throw new RangeError(`"${text}" is not HOST:PORT with a port from 1 to 65535`);
  return { host: (found[1] ?? found[2]) as string, port };
}
