import type { Page } from 'playwright-core';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { State } from '../../shared/state.ts';
import { expectNoFaults, open, textOf } from './browser.ts';
import { ANCHOR, type FedBoat, startFedBoat } from './fedBoat.ts';
import { measured } from './measured.ts';
import { browser, useBrowser } from './stage.ts';

/** Weighing on the daemon itself, helm and foredeck on two screens of a real browser that know nothing of each other; the boat's instruments are played by UDP. */

let boat: FedBoat;
let helm: Page;

beforeEach(async () => {
  boat = await startFedBoat();
  await call('POST', '/mark', ANCHOR, (status) => status === 200);
  helm = await atHelm();
});
afterEach(() => boat.stop());
useBrowser();

/** The helm's page, with a store of its own, under a name of its own. */
async function atHelm(): Promise<Page> {
  const page = await open(browser, boat, '/weigh', {
    storageState: {
      cookies: [],
      origins: [{ origin: boat.url, localStorage: [{ name: 'hawse.name', value: 'cockpit' }] }],
    },
  });
  await page.locator('.helm-page').waitFor();
  return page;
}

const onForedeck = (path: string): Promise<Page> => open(browser, boat, path, { hasTouch: true });

/** Asks until the answer is as wanted: the first fixes have to arrive. */
async function call(
  method: string,
  path: string,
  body: object,
  wanted: (status: number) => boolean,
): Promise<void> {
  await expect
    .poll(async () => {
      const answer = await fetch(`${boat.url}/api/v1${path}`, {
        method,
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
      });
      return wanted(answer.status);
    })
    .toBe(true);
}

const state = async (): Promise<State> => (await fetch(`${boat.url}/api/v1/state`)).json() as Promise<State>;
const target = (page: Page, signal: string) => page.locator(`[data-signal="${signal}"]`);

/** Until it is seen: a computer too busy to show it in time is told the signal again, as a person would. */
async function give(page: Page, signal: string): Promise<void> {
  const seen = page.locator(`[data-signal="${signal}"].seen`);
  const missed = page.locator(`[data-signal="${signal}"].missed`);
  for (;;) {
    await target(page, signal).tap();
    await seen.or(missed).waitFor();
    if ((await seen.count()) > 0) return;
  }
}

/** A finger that comes down and stays: the button goes away under it when it has been held long enough. */
const hold = (page: Page): Promise<void> => page.locator('.guarded button').dispatchEvent('pointerdown');

describe('weighing, on the daemon', () => {
  test('from the check to aweigh, taken back, and aweigh for good', async () => {
    const page = await onForedeck('/check');
    await page.locator('.conditions li', { hasText: /Wind 12\skn/ }).waitFor();
    await page.getByLabel('Cooling water flows').check();
    await page.getByLabel('Way out looked at').check();
    await page.getByRole('button', { name: 'Log this check: 2 of 7 ticked' }).tap();
    await page.getByText(/^Checked at \d\d:\d\d by .*open: Windlass breaker on/).waitFor();
    await page.getByRole('button', { name: 'Start to weigh' }).tap();
    await page.getByRole('link', { name: 'Foredeck page' }).tap();
    await page.locator('.helm-link.sees', { hasText: 'cockpit' }).waitFor();

    await give(page, 'lead:12');
    await give(page, 'heaving');
    boat.approach = 3;
    await expect.poll(() => boat.metres).toBeLessThan(18);
    await page.locator('.chain-mark', { hasText: 'yellow' }).tap();
    await page.locator('.length', { hasText: /^(?:20|19|18)\s*m/ }).waitFor();
    await give(page, 'holding');
    await expect.poll(() => boat.metres).toBeLessThan(2);
    boat.approach = 0;
    await give(page, 'up-and-down');
    await helm.locator('.helm', { hasText: 'UP AND DOWN' }).waitFor();
    await page.locator('.cable-now', { hasText: 'UP AND DOWN' }).waitFor();
    await hold(page);
    await page.locator('.cable-now', { hasText: 'AWEIGH' }).waitFor();
    await helm.locator('.last-signal .word', { hasText: 'Aweigh' }).waitFor();
    await helm.locator('.helm', { hasText: 'FREE' }).waitFor();

    await page.locator('.guarded', { hasText: 'Close the mark' }).waitFor();
    await hold(page);
    await page.locator('.left', { hasText: 'The mark is closed.' }).waitFor();
    expect((await state()).watch.phase).toBe('no-mark');
    const back = page.getByRole('button', { name: /take it back/ });
    await back.dispatchEvent('pointerdown');
    await page.locator('.compass').waitFor();
    expect((await state()).watch.mark).toMatchObject(ANCHOR);
    await page.locator('.guarded', { hasText: 'Close the mark' }).waitFor();
    await hold(page);
    await page.locator('.left').waitFor();
    const { left, notes } = await state();
    expect(left!.farthest).toBeGreaterThan(20);
    const told = notes.map(({ text }) => text);
    expect(told).toContainEqual(
      expect.stringMatching(/^Departure check by .*: 2 of 7 ticked; open: Windlass breaker on/),
    );
    expect(told).toContainEqual(expect.stringMatching(/^Aweigh after \d+ min, at most \d+ m from the mark/));
    expectNoFaults(page);
  });

  test('the helm’s link is cut: both say so, and a STOP is repeated until the helm is back and has shown it', async () => {
    await call('POST', '/weigh', {}, (status) => status === 200);
    const page = await onForedeck('/foredeck');
    await page.locator('.helm-link.sees', { hasText: 'cockpit' }).waitFor();
    await helm.context().setOffline(true);
    await target(page, 'stop').tap();
    await page.getByText(/^STOP NOT SEEN: cockpit (?:has not shown it|is not in view)/).waitFor();
    await helm.locator('.link-banner').waitFor();
    await page.locator('.helm-link.hidden', { hasText: 'HELM AWAY' }).waitFor();
    expect(await helm.locator('.stop-over').count()).toBe(0);
    await helm.context().setOffline(false);
    await helm.locator('.stop-over', { hasText: 'STOP' }).waitFor();
    await page.locator('[data-signal="stop"].seen').waitFor();
    expect(await textOf(page.locator('.fate-line'))).toMatch(/^STOP: seen, cockpit, after/);
  });

  test('the foredeck’s link is cut: both say so, and what it sends meanwhile is not taken for seen', async () => {
    await call('POST', '/weigh', {}, (status) => status === 200);
    const page = await onForedeck('/foredeck');
    await page.locator('.helm-link.sees').waitFor();
    await helm.locator('.helm-head', { hasText: 'foredeck page open' }).waitFor();
    await page.context().setOffline(true);
    await target(page, 'heaving').tap();
    await page.locator('[data-signal="heaving"].missed').waitFor();
    await page.locator('.told-now.loud', { hasText: 'NO LINK' }).waitFor();
    await helm.locator('.helm-head', { hasText: 'no foredeck page' }).waitFor();
    await page.context().setOffline(false);
    await page.locator('.helm-link.sees').waitFor();
    await give(page, 'holding');
    await helm.locator('.last-signal .word', { hasText: 'Holding' }).waitFor();
  });

  test('a signal is on the helm’s screen while the finger is still near the glass (printed, not asserted)', async () => {
    await call('POST', '/weigh', {}, (status) => status === 200);
    const page = await onForedeck('/foredeck');
    await page.locator('.helm-link.sees').waitFor();
    await page.evaluate(() => {
      const touched: number[] = [];
      Object.assign(window, { touched });
      // At the moment that the page's own script acts on.
      document.addEventListener('click', () => touched.push(Date.now()), { capture: true });
    });
    await helm.evaluate(() => {
      const shown: { words: string; at: number }[] = [];
      Object.assign(window, { shown });
      const look = () => {
        const words = document.querySelector('.last-signal .word')?.textContent ?? '';
        if (words !== shown.at(-1)?.words) shown.push({ words, at: Date.now() });
      };
      look();
      new MutationObserver(look).observe(document.body, {
        childList: true,
        subtree: true,
        characterData: true,
      });
    });
    const words = [
      'ahead',
      'neutral',
      'astern',
      'heaving',
      'holding',
      'snubbed',
      'lead:12',
      'lead:1',
      'lead:11',
    ];
    for (const word of [...words, ...words]) await give(page, word);
    const touched = await page.evaluate(() => (window as unknown as { touched: number[] }).touched);
    const shown = await helm.evaluate(() =>
      (window as unknown as { shown: { at: number }[] }).shown.slice(1),
    );
    expect(shown).toHaveLength(2 * words.length);
    // From the touch before it: a signal that was given again has one more.
    const delays = shown
      .map(({ at }) => at - touched.filter((touch) => touch <= at).at(-1)!)
      .sort((a, b) => a - b);
    const at = (part: number) => delays[Math.min(delays.length - 1, Math.floor(part * delays.length))];
    measured(
      `signal to the helm's screen: median ${at(0.5)} ms, 95 % ${at(0.95)} ms, worst ${delays.at(-1)} ms of ${delays.length}`,
    );
  });
});
