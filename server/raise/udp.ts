import { createSocket, type Socket } from 'node:dgram';
import { isIPv6 } from 'node:net';
import type { Carrier } from './carrier.ts';
import { createLines } from './lines.ts';
import type { Health } from './output.ts';
import type { UdpOutput } from './outputs.ts';

const RETRY_MS = 5000;

/** Sentences as datagrams, one each. Orders are taken only from the address and on the port that the config names. */
export function createUdpCarrier(
  { host, port, accept }: Pick<UdpOutput, 'host' | 'port' | 'accept'>,
  health: Health,
): Carrier & { heardOn(): number | undefined } {
  let out: Socket | undefined;
  let ear: Socket | undefined;
  let heardOn: number | undefined;
  let again: NodeJS.Timeout | undefined;
  let isStopped = false;

  function listen(from: string, at: number, hear: (line: string) => void): void {
    const socket = createSocket(isIPv6(from) ? 'udp6' : 'udp4');
    ear = socket;
    socket.on('message', (datagram, sender) => {
      if (sender.address !== from) return;
      const take = createLines(hear);
      take(datagram);
      take(Buffer.from('\n'));
    });
    socket.on('error', (error) => {
      if (isStopped) return;
      health.failed(`orders cannot be heard on UDP port ${at}: ${error.message}`);
      socket.close();
      ear = undefined;
      heardOn = undefined;
      again = setTimeout(() => listen(from, at, hear), RETRY_MS);
      again.unref();
    });
    socket.on('listening', () => {
      heardOn = socket.address().port;
    });
    socket.bind(at);
  }

  /** Made anew after a failure, since a socket with an error may not send any more. */
  function sender(): Promise<Socket> {
    if (out) return Promise.resolve(out);
    return new Promise((resolve, reject) => {
      const socket = createSocket(isIPv6(host) ? 'udp6' : 'udp4');
      socket.once('error', reject);
      socket.bind(0, () => {
        socket.setBroadcast(true);
        socket.on('error', () => {
          if (out === socket) out = undefined;
        });
        out = socket;
        resolve(socket);
      });
    });
  }

  return {
    what: `UDP ${host}:${port}`,
    heardOn: () => heardOn,
    start(ready, hear) {
      if (accept) listen(accept.from, accept.port, hear);
      ready();
    },
    async send(lines) {
      const socket = await sender();
      try {
        for (const line of lines)
          await new Promise<void>((resolve, reject) =>
            socket.send(Buffer.from(line, 'latin1'), port, host, (error) =>
              error ? reject(error) : resolve(),
            ),
          );
      } catch (error) {
        out = undefined;
        socket.removeAllListeners().on('error', () => undefined);
        socket.close();
        throw error;
      }
    },
    async stop() {
      isStopped = true;
      clearTimeout(again);
      for (const socket of [out, ear])
        if (socket) await new Promise<void>((done) => socket.close(() => done()));
    },
  };
}
