import { createServer, type Server, type Socket } from 'node:net';
import { withChecksum } from '../../shared/sentences/checksum.ts';

/** A gateway that numbers what it sends, so that every sentence that got lost or came twice is known by its number. */
export interface NumberedBoat {
  port: number;
  /** The last number sent, and the first one of each connection. */
  sent(): number;
  firsts: number[];
  /** When the first fix of the newest connection was sent, host time in milliseconds; undefined: none yet. */
  firstFix(): number | undefined;
  close(): void;
}

const EVERY_MS = 25;
const PLACE = { lat: '3600.00000', lon: '16330.00000' };

export async function numberedBoat(perSecond = 200): Promise<NumberedBoat> {
  let number = 0;
  let client: Socket | undefined;
  let firstFix: number | undefined;
  const firsts: number[] = [];
  const server: Server = createServer((socket) => {
    client = socket;
    firstFix = undefined;
    firsts.push(number + 1);
    socket.on('error', () => undefined);
    socket.on('close', () => {
      if (client === socket) client = undefined;
    });
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const timer = setInterval(() => {
    if (!client) return;
    let text = `${fix()}\r\n`;
    for (let i = 0; i < (perSecond * EVERY_MS) / 1000; i++) text += `${withChecksum(`PXTN,${++number}`)}\r\n`;
    firstFix ??= Date.now();
    client.write(text, 'latin1');
  }, EVERY_MS);
  return {
    port: (server.address() as { port: number }).port,
    sent: () => number,
    firsts,
    firstFix: () => firstFix,
    close() {
      clearInterval(timer);
      client?.destroy();
      server.close();
    },
  };
}

function fix(): string {
  const now = new Date().toISOString();
  const clock = now.slice(11, 22).replace(/:/g, '');
  const date = now.slice(2, 10).split('-').reverse().join('');
  return withChecksum(`GPRMC,${clock},A,${PLACE.lat},S,${PLACE.lon},E,0.1,,${date},,,A`);
}
