import type { Browser, BrowserContextOptions, Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { Boat } from './fakeBoat.ts';

export const PHONE = { width: 390, height: 844 };
export const SMALL = { width: 320, height: 640 };
export const SIDEWAYS = { width: 844, height: 390 };
export const DESK = { width: 1280, height: 800 };
/** By the names that stand in the tests. */
export const SCREENS = {
  'a small phone': SMALL,
  'a phone': PHONE,
  'a phone on its side': SIDEWAYS,
  'a desk': DESK,
};

/** Faults of scripts that nobody caught, by page; each test ends with `expectNoFaults`. */
const faults = new WeakMap<Page, string[]>();

/** Opens a page of the boat on a screen of its own: own storage, own sound. */
export async function open(
  browser: Browser,
  boat: Boat,
  path = '/',
  options: BrowserContextOptions = {},
): Promise<Page> {
  const context = await browser.newContext({
    viewport: PHONE,
    colorScheme: 'dark',
    timezoneId: 'Pacific/Fiji',
    ...options,
  });
  // As for all that is waited for (vitest.config.ts): what comes late on a busy machine has come.
  context.setDefaultTimeout(60_000);
  const page = await context.newPage();
  const found: string[] = [];
  faults.set(page, found);
  page.on('pageerror', (error) => found.push(error.message));
  page.on('request', (request) => {
    const { host } = new URL(request.url());
    if (host !== new URL(boat.url).host) found.push(`asked another host: ${request.url()}`);
  });
  await page.goto(boat.url + path);
  return page;
}

export const expectNoFaults = (page: Page): void => expect(faults.get(page)).toEqual([]);

/**
 * Stops the page's clock: from now on its timers fire and its time passes only by `page.clock.runFor(ms)`, so that neither a
 * quick nor a slow machine gets in before or after them. What the boat says still arrives. The sound's clock goes on.
 */
export async function stopClock(page: Page): Promise<void> {
  await page.clock.install();
  // It cannot be stopped in what is the past already when the order arrives.
  await page.clock.pauseAt(Date.now() + 2000);
}

/** The text as it is seen on the screen: hidden letters left out, blocks on lines of their own. */
// biome-ignore lint/performance/useDomNodeTextContent: this is the driver's method, and what is seen is what matters here.
export const textOf = (locator: Locator): Promise<string> => locator.innerText();

/** Taps "Arm this computer" as a finger would and waits until the page says that it can be heard. */
export async function soundOn(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^Arm this/ }).click();
  await page.waitForFunction(() => window.hawseSound.state === 'running');
}

/** Arms the device of this page, as a person who heard the alarm. */
export async function armPage(page: Page): Promise<void> {
  await soundOn(page);
  await page.getByRole('button', { name: 'I heard it' }).click();
}

/** What the page's script tells about its sound. */
export const played = (page: Page): Promise<Record<string, number>> =>
  page.evaluate(() => ({ ...window.hawseSound.played }));

declare global {
  interface Window {
    readonly hawseSound: {
      readonly state: string;
      readonly signalsPlayed: number;
      readonly played: Record<'alarm' | 'warning' | 'caution' | 'linkLost' | 'test', number>;
      readonly peak: number;
    };
  }
}
