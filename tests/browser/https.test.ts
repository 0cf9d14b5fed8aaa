import { X509Certificate } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:https';
import type { AddressInfo } from 'node:net';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { type Browser, type Page, chromium as playwright } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { commonBoat } from '../../server/config/defaults.ts';
import { toSettings } from '../../server/config/settings.ts';
import type { Daemon } from '../../server/daemon.ts';
import { issueLeaf } from '../../server/tls/authority.ts';
import { partsOf } from '../../server/tls/files.ts';
import { originWords } from '../../web/words/horn.ts';
import { daemonAtHand, emptyFolder } from '../server/daemonAtHand.ts';
import { homeThatTrusts } from './certificates.ts';
import { chromium, flags } from './chromium.mjs';
import { pages } from './stage.ts';

/** A name of this computer that no browser holds for the computer it runs on: what holds for localhost proves nothing. */
const NAME = `${hostname().split('.')[0]!.toLowerCase()}.local`;
const FOREIGN = 'bank.example';

let daemon: Daemon;
let root: string;
let data: string;
let http: string;
let https: string;
/** A browser that trusts nobody of ours, and one that trusts the boat's root. */
let stranger: Browser;
let friend: Browser | undefined;
const closing: (() => Promise<unknown>)[] = [];

beforeAll(async () => {
  data = emptyFolder();
  daemon = await daemonAtHand({
    settings: toSettings(commonBoat()),
    feeder: () => ({ stop: async () => {} }),
    data,
    tls: {},
    webRoot: pages(),
  });
  closing.push(() => daemon.stop('end of the test'));
  http = `http://${NAME}:${daemon.port}`;
  https = `https://${NAME}:${new URL(daemon.trust!.secure!).port}`;
  const der = await (await fetch(`http://127.0.0.1:${daemon.port}/trust/hawse.crt`)).arrayBuffer();
  root = new X509Certificate(Buffer.from(der)).toString();
  const home = homeThatTrusts(root);
  stranger = await launched();
  friend = home === undefined ? undefined : await launched(home);
});
afterAll(async () => {
  for (const close of closing.reverse()) await close();
});

async function launched(home?: string): Promise<Browser> {
  const browser = await playwright.launch({
    executablePath: chromium,
    args: [...flags, `--host-resolver-rules=MAP ${NAME} 127.0.0.1, MAP ${FOREIGN} 127.0.0.1`],
    ...(home && { env: { ...process.env, HOME: home, XDG_DATA_HOME: join(home, '.local', 'share') } }),
  });
  closing.push(() => browser.close());
  return browser;
}

const capabilities = (page: Page) =>
  page.evaluate(() => ({
    secure: isSecureContext,
    worker: 'serviceWorker' in navigator,
    wakeLock: 'wakeLock' in navigator,
  }));
const registers = (page: Page): Promise<string> =>
  page.evaluate(() =>
    navigator.serviceWorker.register('/sw.js').then(
      () => 'registered',
      (error: Error) => error.name,
    ),
  );

test('the root in the browser’s store of trust: secure origin, live over wss, service worker, nothing to complain of', async () => {
  if (!friend) return;
  const page = await friend.newPage();
  await page.goto(`${https}/instruments`);
  expect(await capabilities(page)).toEqual({ secure: true, worker: true, wakeLock: true });
  // "Notes of the watch" stands there only when the live socket has brought the state.
  await page.getByRole('heading', { name: 'Notes of the watch' }).waitFor();
  expect(await registers(page)).toBe('registered');
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  expect(await page.getByText(originWords.title).count()).toBe(0);
});

describe('name constraints in this browser', () => {
  let forged: Server;
  afterAll(() => {
    forged?.close();
  });

  test('a server that the boat’s key vouches for under a foreign name is refused although the root is trusted', async () => {
    if (!friend) return;
    const { certificates, key } = partsOf(readFileSync(join(data, 'tls', 'authority.pem'), 'utf8'));
    const authority = { root: certificates[0]!, issuing: certificates[1]!, issuingKey: key! };
    const stolen = await issueLeaf(authority, { dns: [FOREIGN], ips: [] }, Date.now());
    forged = createServer({ cert: stolen.chain, key: stolen.key }, (_request, response) =>
      response.end('bank'),
    );
    await new Promise<void>((resolve) => forged.listen(0, '127.0.0.1', resolve));
    const page = await friend.newPage();
    const visit = page.goto(`https://${FOREIGN}:${(forged.address() as AddressInfo).port}/`);
    await expect(visit).rejects.toThrow(/ERR_CERT_INVALID/);
  });
});

test('a certificate warning that is clicked away: no service worker, and the page says why', async () => {
  const strict = await stranger.newPage();
  await expect(strict.goto(https)).rejects.toThrow(/ERR_CERT_AUTHORITY_INVALID/);
  const page = await (await stranger.newContext({ ignoreHTTPSErrors: true })).newPage();
  await page.goto(`${https}/instruments`);
  expect(await registers(page)).toBe('SecurityError');
  await page.getByText(originWords.untrusted).waitFor();
  expect(await page.getByRole('link', { name: originWords.lead }).getAttribute('href')).toBe('/trust');
});

test('over plain http the page says what is missing, and leads to the page that mends it', async () => {
  const page = await stranger.newPage({ viewport: { width: 390, height: 844 } });
  await page.goto(`${http}/instruments`);
  expect(await capabilities(page)).toEqual({ secure: false, worker: false, wakeLock: false });
  await page.getByText(originWords.plain).waitFor();
  await page.getByRole('link', { name: originWords.lead }).click();
  await page.getByRole('heading', { level: 1, name: /trust/ }).waitFor();
  const shown = await page.locator('.fingerprint').textContent();
  expect(shown).toBe(new X509Certificate(root).fingerprint256);
});

describe('the page that leads to https', () => {
  const axe = readFileSync(new URL(import.meta.resolve('axe-core')), 'utf8');
  test.each(['dark', 'light'] as const)('can be read by everybody (%s)', async (colorScheme) => {
    const page = await stranger.newPage({
      viewport: { width: 320, height: 640 },
      colorScheme,
      bypassCSP: true,
    });
    await page.goto(`${http}/trust`);
    await page.evaluate(axe);
    const found = await page.evaluate(async () => {
      const { violations } = await (
        window as unknown as { axe: { run(): Promise<{ violations: { id: string }[] }> } }
      ).axe.run();
      return violations.map(({ id }) => id);
    });
    expect(found).toEqual([]);
    // Nothing sticks out at the side.
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(320);
  });
});
