import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { open, textOf } from './browser.ts';
import { type FakeBoat, startFakeBoat } from './fakeBoat.ts';
import { browser, pages as built, useBrowser } from './stage.ts';

/** An address for this boat alone, so that its port is still free when it comes back. */
const HOST = '127.0.0.9';
/** The built pages, apart from those of other tests: here a newer version of them comes. */
let pages: string;
let boat: FakeBoat;

useBrowser();
beforeAll(async () => {
  pages = mkdtempSync(join(tmpdir(), 'hawse-pages-'));
  cpSync(built(), pages, { recursive: true });
  boat = await startFakeBoat(pages, 0, HOST);
});
afterAll(async () => {
  await boat?.stop();
  rmSync(pages, { recursive: true, force: true });
});

const STORES = 'caches.keys()';

describe('the pages on the home screen of a phone', () => {
  test('the manifest names icons that are there, of the size that it says', async () => {
    const page = await open(browser, boat);
    const icons = await page.evaluate(async () => {
      const link = document.querySelector<HTMLLinkElement>('link[rel=manifest]')!;
      const manifest = (await (await fetch(link.href)).json()) as {
        icons: { src: string; sizes: string }[];
        display: string;
      };
      return Promise.all(
        manifest.icons.map(async ({ src, sizes }) => {
          const image = new Image();
          image.src = src;
          await image.decode();
          return sizes === 'any' || `${image.naturalWidth}x${image.naturalHeight}` === sizes;
        }),
      );
    });
    expect(icons).toEqual([true, true, true, true]);
  });

  test('they open when the daemon is down, say so at once and loudly, and show nothing of what they once knew', async () => {
    const page = await open(browser, boat);
    await page.locator('.dominant', { hasText: 'm' }).waitFor();
    await page.evaluate('navigator.serviceWorker.ready.then(() => undefined)');
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    const port = Number(new URL(boat.url).port);
    await boat.stop();
    await page.reload();
    await page.locator('.link-banner', { hasText: 'this page is not watching' }).waitFor();
    expect(await textOf(page.locator('.report'))).toMatch(/No word from the boat/);
    expect(await page.locator('.dominant, .cell').count()).toBe(0);
    expect(await page.title()).toMatch(/^No word/);
    // Nothing of the boat's lies in the store: only what the build made.
    const kept = await page.evaluate(async () => {
      const stores = await Promise.all((await caches.keys()).map((name) => caches.open(name)));
      const requests = (await Promise.all(stores.map((store) => store.keys()))).flat();
      return requests.map(({ url }) => new URL(url).pathname);
    });
    expect(kept).toContain('/');
    expect(kept.filter((path) => /api|live/.test(path))).toEqual([]);
    boat = await startFakeBoat(pages, port, HOST);
    await page.locator('.dominant', { hasText: 'm' }).waitFor();
    expect(await page.locator('.link-banner').count()).toBe(0);
  });

  test('a new version waits for a tap, then leaves nothing of the old one behind', async () => {
    const page = await open(browser, boat);
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    const before = (await page.evaluate(STORES)) as string[];
    const file = join(pages, 'sw.js');
    writeFileSync(
      file,
      readFileSync(file, 'utf8').replace(/const VERSION = "\w+"/, 'const VERSION = "0123456789ab"'),
    );
    await page.evaluate(
      'window.isOld = true; navigator.serviceWorker.ready.then((made) => made.update().then(() => undefined))',
    );
    await page.getByText('A newer hawse is on board').waitFor();
    expect(await page.evaluate('window.isOld')).toBe(true);
    await page.getByRole('button', { name: 'Take it over' }).click();
    await page.waitForFunction(() => !('isOld' in window));
    await page.locator('.dominant', { hasText: 'm' }).waitFor();
    await expect.poll(() => page.evaluate(STORES)).toEqual(['hawse-shell-0123456789ab']);
    expect(before).not.toContain('hawse-shell-0123456789ab');
  });
});
