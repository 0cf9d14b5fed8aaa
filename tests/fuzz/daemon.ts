import { Agent, request as httpRequest, type IncomingMessage } from 'node:http';
import { request as httpsRequest, Agent as SecureAgent } from 'node:https';
import { connect, type Socket } from 'node:net';
import { connect as secureConnect } from 'node:tls';
import { commonBoat } from '../../server/config/defaults.ts';
import { toSettings } from '../../server/config/settings.ts';
import type { Role } from '../../shared/access.ts';
import { withChecksum } from '../../shared/sentences/checksum.ts';
import { daemonAtHand } from '../server/daemonAtHand.ts';
import type { Chance } from './random.ts';

/** Who asks: this computer, a stranger, devices with keys, and one that guesses. Each from addresses of its own. */
export type Caller = 'here' | 'stranger' | 'guesser' | Role;
export const CALLERS: readonly Caller[] = ['here', 'stranger', 'guesser', 'look', 'acknowledge', 'command'];

export interface Reply {
  status: number;
  type: string;
  text: string;
}

export interface Ask {
  method: string;
  path: string;
  headers?: Record<string, string>;
  body?: string;
  caller: Caller;
}

/** A daemon with a fix a second, a mark and an alert, and one key of each role. */
export interface Fuzzed {
  port: number;
  ask(ask: Ask): Promise<Reply>;
  /** Headers that make a request of this caller. */
  headersOf(caller: Caller): Record<string, string>;
  addressOf(caller: Caller): string;
  raw(address: string): Socket;
  url: string;
  stop(): Promise<void>;
}

const ADDRESSES = 40;

export async function startFuzzed(chance: Chance, tls: boolean): Promise<Fuzzed> {
  const daemon = await daemonAtHand({
    settings: toSettings(commonBoat()),
    feeder: fixes,
    ...(tls && { tls: {} }),
  });
  const port = tls ? Number(new URL(daemon.trust!.secure!).port) : daemon.port;
  const agents = new Map<string, Agent>();
  const keys = new Map<Caller, string>();

  const addressOf = (caller: Caller): string =>
    caller === 'here' ? '127.0.0.1' : `127.0.${1 + CALLERS.indexOf(caller)}.${1 + chance.below(ADDRESSES)}`;

  function headersOf(caller: Caller): Record<string, string> {
    if (caller === 'here') return {};
    const key = keys.get(caller);
    const guess = caller === 'guesser' ? chance.bytes(18).toString('base64url') : undefined;
    const bears = key ?? guess;
    const how: Record<string, string> =
      bears === undefined
        ? {}
        : chance.oneIn(2)
          ? { authorization: `Bearer ${bears}` }
          : { cookie: `hawse-key=${bears}` };
    return { 'x-forwarded-for': '192.0.2.1', ...how };
  }

  function ask({ method, path, headers = {}, body, caller }: Ask): Promise<Reply> {
    const localAddress = addressOf(caller);
    let agent = agents.get(localAddress);
    if (!agent) {
      agent = tls
        ? new SecureAgent({ keepAlive: true, maxSockets: 2 })
        : new Agent({ keepAlive: true, maxSockets: 2 });
      agents.set(localAddress, agent);
    }
    const options = {
      agent,
      host: '127.0.0.1',
      port,
      localAddress,
      method,
      path,
      headers: { ...headersOf(caller), ...headers },
    };
    return new Promise((resolve, reject) => {
      const take = (answer: IncomingMessage) => {
        const parts: Buffer[] = [];
        answer.on('data', (part: Buffer) => parts.push(part));
        answer.on('error', reject);
        answer.on('end', () =>
          resolve({
            status: answer.statusCode ?? 0,
            type: String(answer.headers['content-type'] ?? ''),
            text: Buffer.concat(parts).toString(),
          }),
        );
      };
      const sent = tls
        ? httpsRequest({ ...options, rejectUnauthorized: false }, take)
        : httpRequest(options, take);
      sent.on('error', reject);
      sent.end(body);
    });
  }

  const fuzzed: Fuzzed = {
    port,
    ask,
    headersOf,
    addressOf,
    url: `${tls ? 'wss' : 'ws'}://127.0.0.1:${port}/live`,
    raw: (localAddress) =>
      tls
        ? secureConnect({
            port,
            host: '127.0.0.1',
            rejectUnauthorized: false,
            ...({ localAddress } as object),
          })
        : connect({ port, host: '127.0.0.1', localAddress }),
    async stop() {
      for (const agent of agents.values()) agent.destroy();
      await daemon.stop('the fuzz is over');
    },
  };
  for (const role of ['look', 'acknowledge', 'command'] as const) {
    const body = JSON.stringify({ name: `fuzz ${role}`, role });
    const made = await ask({
      method: 'POST',
      path: '/api/v1/keys',
      body,
      headers: JSON_TYPE,
      caller: 'here',
    });
    keys.set(role, (JSON.parse(made.text) as { bearer: string }).bearer);
  }
  await new Promise((resolve) => setTimeout(resolve, 500));
  await ask({ method: 'POST', path: '/api/v1/mark', body: '{}', headers: JSON_TYPE, caller: 'here' });
  return fuzzed;
}

export const JSON_TYPE = { 'content-type': 'application/json' };

const fixes: Parameters<typeof daemonAtHand>[0]['feeder'] = ({ line }) => {
  const timer = setInterval(() => {
    const utc = new Date().toISOString();
    const date = utc.slice(2, 10).split('-').reverse().join('');
    line(
      'udp1',
      withChecksum(
        `GPRMC,${utc.slice(11, 22).replace(/:/g, '')},A,5251.000,N,00518.600,E,0.1,10.0,${date},,,A`,
      ),
    );
    line('udp1', withChecksum('SDDPT,1.2,0.5'));
  }, 100);
  return { stop: async () => clearInterval(timer) };
};
