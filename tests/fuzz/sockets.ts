import { once } from 'node:events';
import { WebSocket } from 'ws';
import { z } from 'zod';
import { pageMessage } from '../../shared/messages.ts';
import { checkAlive } from './api.ts';
import { type Fuzzed, startFuzzed } from './daemon.ts';
import { type Chance, createChance, mangle } from './random.ts';
import { type Campaign, createCampaign } from './report.ts';
import { createMaker, type Schema } from './schema.ts';

const FRAMES_A_SOCKET = 30;
const AT_ONCE = 8;
const LOOK_EVERY = 2000;

/** Frames of every kind on live sockets of every role, and bytes that are no frames. */
export async function socketCampaign(count: number, seed: number, tls: boolean): Promise<Campaign> {
  const campaign = createCampaign(tls ? 'frames over TLS' : 'frames', 'socket');
  const chance = createChance(seed);
  const daemon = await startFuzzed(chance, tls);
  const make = createMaker(chance, {}, seed);
  const schema = z.toJSONSchema(pageMessage) as Schema;
  let done = 0;

  async function worker(): Promise<void> {
    while (done < count) {
      if (chance.oneIn(6)) {
        done++;
        campaign.tried(await throwBytes(daemon, chance));
        continue;
      }
      const socket = await openSocket(daemon, chance);
      if (socket === undefined) {
        done++;
        campaign.tried('refused at the door');
        continue;
      }
      for (let i = 0; i < FRAMES_A_SOCKET && done < count && socket.readyState === socket.OPEN; i++) {
        done++;
        socket.send(frame(make(schema, chance.pick([0, 6, 20])), chance));
        campaign.tried('sent');
        if (done % LOOK_EVERY === 0) await checkAlive(daemon, campaign.found);
      }
      campaign.tried(`closed ${await farewell(socket)}`);
    }
  }

  const watcher = new WebSocket(daemon.url, { rejectUnauthorized: false });
  let pulses = 0;
  watcher.on('message', () => pulses++);
  await once(watcher, 'open');
  await Promise.all(Array.from({ length: AT_ONCE }, worker));
  await checkAlive(daemon, campaign.found);
  if (watcher.readyState !== watcher.OPEN || pulses === 0)
    campaign.found('the page that only watched was not told', null);
  watcher.terminate();
  await daemon.stop();
  return campaign.done();
}

async function openSocket(daemon: Fuzzed, chance: Chance): Promise<WebSocket | undefined> {
  const caller = chance.pick(['here', 'stranger', 'look', 'command', 'guesser'] as const);
  const query = chance.pick([
    '',
    '?since=1',
    '?page=weigh&name=x',
    '?since=99999999999999999999',
    `?since=${chance.below(1e6)}`,
    '?page=%00&name=%ff',
    `?name=${'x'.repeat(500)}`,
    `?${encodeURIComponent(chance.bytes(20).toString('latin1'))}`,
  ]);
  const socket = new WebSocket(`${daemon.url}${query}`, {
    rejectUnauthorized: false,
    headers: daemon.headersOf(caller),
    localAddress: daemon.addressOf(caller),
  });
  socket.on('message', () => {});
  const opened = await Promise.race([
    once(socket, 'open').then(
      () => true,
      () => false,
    ),
    once(socket, 'close').then(
      () => false,
      () => false,
    ),
  ]);
  socket.on('error', () => {});
  return opened ? socket : undefined;
}

function frame(value: unknown, chance: Chance): string | Buffer {
  const text = JSON.stringify(value) ?? 'undefined';
  switch (chance.below(12)) {
    case 0:
      return chance.bytes(chance.below(300));
    case 1:
      return 'x'.repeat(chance.pick([0, 1, 8000, 9000]));
    case 2:
    case 3:
      return mangle(text, chance, ['"', '{', '}', '[', ',', ':', '\\', '1e999', '\u0000', '€']);
    default:
      return text;
  }
}

async function farewell(socket: WebSocket): Promise<number> {
  if (socket.readyState === socket.CLOSED) return 0;
  const closed = once(socket, 'close') as Promise<[number]>;
  socket.close();
  const timer = setTimeout(() => socket.terminate(), 2000);
  const [code] = await closed;
  clearTimeout(timer);
  return code;
}

/** A handshake that is damaged, or whole and followed by bytes that are no frames. */
async function throwBytes(daemon: Fuzzed, chance: Chance): Promise<string> {
  const socket = daemon.raw(daemon.addressOf('stranger'));
  socket.on('error', () => {});
  let heard = '';
  const handshake = `GET /live HTTP/1.1\r\nHost: 127.0.0.1:${daemon.port}\r\nConnection: Upgrade\r\nUpgrade: websocket\r\nX-Forwarded-For: 192.0.2.1\r\nSec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==\r\nSec-WebSocket-Version: 13\r\n\r\n`;
  const whole = chance.oneIn(2);
  socket.write(
    whole ? handshake : Buffer.from(mangle(handshake, chance, ['\r\n', ':', ' ', '\0', 'x']), 'latin1'),
  );
  const timer = setTimeout(() => socket.destroy(), 300);
  socket.on('data', (data) => {
    if (heard === '') socket.end(chance.bytes(chance.below(400)));
    heard += data.toString('latin1', 0, 20);
  });
  await once(socket, 'close');
  clearTimeout(timer);
  return `bytes ${/^HTTP\/1\.1 (\d+)/.exec(heard)?.[1] ?? 'nothing'}`;
}
