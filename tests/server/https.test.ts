import { X509Certificate } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { get, type RequestOptions } from 'node:https';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { WebSocket } from 'ws';
import { commonBoat } from '../../server/config/defaults.ts';
import { toSettings } from '../../server/config/settings.ts';
import type { Daemon } from '../../server/daemon.ts';
import { openTls } from '../../server/tls/keep.ts';
import type { State } from '../../shared/state.ts';
import { api, daemonAtHand, emptyFolder } from './daemonAtHand.ts';

const settings = toSettings(commonBoat());
const mute = () => ({ stop: async () => {} });
const closing: (() => Promise<unknown> | unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

async function start(data = emptyFolder(), port?: number): Promise<Daemon> {
  const daemon = await daemonAtHand({
    settings,
    data,
    feeder: mute,
    tls: port === undefined ? {} : { port },
  });
  closing.push(() => daemon.stop('end of the test'));
  return daemon;
}
const rootOf = async (daemon: Daemon): Promise<string> => {
  const answer = await fetch(`http://127.0.0.1:${daemon.port}/trust/hawse.crt`);
  expect(answer.headers.get('content-type')).toBe('application/x-x509-ca-cert');
  return new X509Certificate(Buffer.from(await answer.arrayBuffer())).toString();
};
const securePort = (daemon: Daemon): number => Number(new URL(daemon.trust!.secure!).port);

function fetchSecurely(
  port: number,
  path: string,
  options: RequestOptions,
): Promise<{ status: number; text: string; headers: Record<string, unknown> }> {
  return new Promise((resolve, reject) => {
    get({ host: '127.0.0.1', port, path, servername: 'localhost', agent: false, ...options }, (answer) => {
      let text = '';
      answer.on('data', (chunk) => {
        text += chunk;
      });
      answer.on('end', () => resolve({ status: answer.statusCode ?? 0, text, headers: answer.headers }));
    }).on('error', reject);
  });
}

describe('https beside http', () => {
  test('the same calls on both; without the boat’s root no client takes it', async () => {
    const daemon = await start();
    const ca = await rootOf(daemon);
    const port = securePort(daemon);
    const answer = await fetchSecurely(port, '/api/v1/state', { ca });
    expect(answer.status).toBe(200);
    expect(JSON.parse(answer.text).boat).toEqual(
      ((await (await api(daemon, '/state')).json()) as State).boat,
    );
    expect(answer.headers['strict-transport-security']).toBeUndefined();
    await expect(fetchSecurely(port, '/', {})).rejects.toThrow(/certificate/);
    // The same checks too: a page of another site, or another name, is refused.
    expect(
      (await fetchSecurely(port, '/api/v1/state', { ca, headers: { host: 'evil.example' } })).status,
    ).toBe(421);
    const origin = { origin: 'https://evil.example' };
    expect((await fetchSecurely(port, '/api/v1/state', { ca, headers: origin })).status).toBe(403);
  });

  test('the live socket over wss', async () => {
    const daemon = await start();
    const ca = await rootOf(daemon);
    const port = securePort(daemon);
    const socket = new WebSocket(`wss://localhost:${port}/live?page=watch&name=bunk`, {
      ca,
      lookup: (_host, _options, done) => done(null, [{ address: '127.0.0.1', family: 4 }]),
      headers: { origin: `https://localhost:${port}` },
    });
    closing.push(() => socket.terminate());
    const first = await new Promise<string>((resolve, reject) => {
      socket.once('message', (data) => resolve(String(data)));
      socket.once('error', reject);
    });
    expect(JSON.parse(first)).toMatchObject({ type: 'snapshot', mayCommand: true });
  });

  test('over a restart the root is the same; a stopped daemon lets its port go', async () => {
    const data = emptyFolder();
    const first = await daemonAtHand({ settings, data, feeder: mute, tls: {} });
    const ca = await rootOf(first);
    const port = securePort(first);
    await first.stop('restart');
    const second = await start(data, port);
    expect(securePort(second)).toBe(port);
    expect(await rootOf(second)).toBe(ca);
    expect((await fetchSecurely(port, '/', { ca })).status).toBe(200);
  });

  test('a port that is taken is a caution, and the watch goes on over http', async () => {
    const first = await start();
    const second = await start(emptyFolder(), securePort(first));
    expect(second.trust!.secure).toBeUndefined();
    const state = (await (await api(second, '/state')).json()) as State;
    expect(state.alerts).toMatchObject([{ kind: 'daemon', priority: 'caution' }]);
    expect(state.alerts[0]!.text).toMatch(/https is not served: port \d+ cannot be had/);
    const page = await (await fetch(`http://127.0.0.1:${second.port}/trust`)).text();
    expect(page).toContain('https is not served now');
  });

  test('keys that cannot be written: a caution too, and no page that leads nowhere', async () => {
    const data = emptyFolder();
    writeFileSync(join(data, 'tls'), 'in the way');
    const daemon = await start(data);
    expect(daemon.trust).toBeUndefined();
    const { alerts } = (await (await api(daemon, '/state')).json()) as State;
    expect(alerts[0]!.text).toMatch(/https is not served: .*tls cannot be written/);
    expect((await fetch(`http://127.0.0.1:${daemon.port}/trust`)).status).toBe(404);
  });
});

describe('the page that leads a phone to https', () => {
  test('fingerprint, steps, risk, removal, QR codes; over plain http, to everybody, without script', async () => {
    const data = emptyFolder();
    const daemon = await start(data);
    const answer = await fetch(`http://127.0.0.1:${daemon.port}/trust`);
    expect(answer.headers.get('content-type')).toBe('text/html; charset=utf-8');
    const page = await answer.text();
    const ca = new X509Certificate(await rootOf(daemon));
    expect(page.replaceAll('<wbr>', '')).toContain(ca.fingerprint256);
    expect(daemon.trust!.fingerprint).toBe(ca.fingerprint256);
    for (const words of [
      'Certificate Trust Settings',
      'CA certificate',
      'What you risk',
      'Remove Profile',
      'do not click the warning away',
    ])
      expect(page).toContain(words);
    expect(page.match(/<svg/g)).toHaveLength(2);
    expect(page).not.toMatch(/<script|style=|onclick/);
    expect(page).toMatch(/https:\/\/[^"]+:\d+\//);
  });

  test('the profile for iPhones holds the same root', async () => {
    const daemon = await start();
    const answer = await fetch(`http://127.0.0.1:${daemon.port}/trust/hawse.mobileconfig`);
    expect(answer.headers.get('content-type')).toMatch(/^application\/x-apple-aspen-config/);
    const profile = await answer.text();
    const der = Buffer.from(/<data>([^<]+)<\/data>/.exec(profile)![1]!, 'base64');
    expect(new X509Certificate(der).toString()).toBe(await rootOf(daemon));
    const ids = [...profile.matchAll(/PayloadUUID<\/key><string>([^<]+)</g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(2);
    for (const id of ids)
      expect(id).toMatch(/^[0-9A-F]{8}-[0-9A-F]{4}-8[0-9A-F]{3}-A[0-9A-F]{3}-[0-9A-F]{12}$/);
  });

  test('a boat with an odd name stays text', async () => {
    const { createTrust } = await import('../../server/tls/trust.ts');
    const tls = await openTls({
      data: emptyFolder(),
      boat: '<script>"&',
      names: ['localhost', 'sandpiper.local'],
      addresses: () => ['fd00::9', '192.168.1.9'],
      now: Date.now,
      note: () => {},
    });
    const trust = createTrust({
      boat: '<script>"&',
      tls,
      ports: () => ({ http: 8274, https: 8275 }),
      addresses: () => ['fd00::9', '192.168.1.9'],
    });
    const page = trust.page('localhost');
    expect(page).not.toContain('<script>');
    expect(page).toContain('&lt;script&gt;&quot;&amp;');
    // A phone cannot open "localhost": it is led to an address of the boat; one that has come by an address keeps it.
    expect(page).toContain('https://192.168.1.9:8275/');
    expect(trust.page('192.168.1.9')).toContain('https://192.168.1.9:8275/');
    expect(trust.page('[fd00::9]')).toContain('https://[fd00::9]:8275/');
    // By an address that the certificate does not know it is led to a name that it does.
    expect(trust.page('203.0.113.4')).toContain('https://sandpiper.local:8275/');
  });
});
