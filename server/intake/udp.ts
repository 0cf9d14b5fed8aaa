import { createSocket, type Socket } from 'node:dgram';
import { createFramer } from './framer.ts';
import { createLink, describeFault, type Intake, type Sinks } from './input.ts';

export interface UdpOptions {
  id: string;
  /** Port to listen on; 0 takes a free one. */
  udp: number;
  /** Address to bind. All when left out, which broadcasts need. */
  host?: string | undefined;
  /** Datagrams from other addresses than this are ignored. */
  from?: string | undefined;
  /** Multicast group to join. */
  group?: string | undefined;
  /** Until the next try when the port cannot be had, milliseconds. */
  retry?: number;
}

/** Sentences in datagrams, unicast or broadcast: several in one are fine, and a datagram's end is a line's end. */
export function createUdp(options: UdpOptions, sinks: Sinks): Intake & { port(): number | undefined } {
  const { id, udp, host, from, group, retry = 5000 } = options;
  const link = createLink(id, sinks);
  const framer = createFramer({
    online: (line) => sinks.line(id, line),
    onoverlong: (bytes) => sinks.overlong(id, bytes),
  });
  let socket: Socket | undefined;
  let again: NodeJS.Timeout | undefined;
  let stopped = false;
  let isStrangerTold = false;

  function open(): void {
    // Without a group the port is ours alone: a second program that shared it would take the datagrams away in silence.
    const made = createSocket({
      type: host?.includes(':') ? 'udp6' : 'udp4',
      reuseAddr: group !== undefined,
    });
    socket = made;
    made.on('message', (datagram, sender) => {
      if (from !== undefined && sender.address !== from) {
        if (!isStrangerTold)
          link.tell(true, `datagrams from ${sender.address} are ignored, only ${from} is heard`);
        isStrangerTold = true;
        return;
      }
      framer.push(datagram);
      framer.flush();
    });
    made.on('listening', () => {
      try {
        if (group !== undefined) made.addMembership(group);
        link.tell(
          true,
          `listening on UDP port ${made.address().port}${group === undefined ? '' : `, group ${group}`}`,
        );
      } catch (error) {
        fail(error);
      }
    });
    made.on('error', fail);
    made.bind(udp, host);
  }

  function fail(error: unknown): void {
    if (stopped) return;
    link.tell(false, `UDP port ${udp}: ${describeFault(error)}`);
    const failed = socket;
    socket = undefined;
    failed?.removeAllListeners().on('error', () => undefined);
    failed?.close();
    clearTimeout(again);
    again = setTimeout(open, retry);
  }

  return {
    id,
    start: open,
    port: () => {
      try {
        return socket?.address().port;
      } catch {
        return undefined; // not bound yet
      }
    },
    async stop() {
      stopped = true;
      link.mute();
      clearTimeout(again);
      const open = socket;
      socket = undefined;
      if (open) await new Promise<void>((resolve) => open.close(() => resolve()));
    },
  };
}
