import { type Browser, chromium as playwright } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, inject } from 'vitest';
import type { State } from '../../shared/state.ts';
import { type FakeBoat, startFakeBoat } from './fakeBoat.ts';

/** What the tests of a file find ready: the browser of this run, and a scripted boat of their own for each test. */

/** Where the built pages are; they are built once for all tests, see once.ts. */
export const pages = (): string => inject('pages');

/** A line to the one Chromium of this run. What is opened by it is apart from all else, and is closed with it. */
const launch = (): Promise<Browser> => playwright.connect(inject('chromium'));

export let browser: Browser;
export let boat: FakeBoat;

/** To be called once in a file: `browser` for all its tests, nothing of one test left open in the next. */
export function useBrowser(): void {
  beforeAll(async () => {
    browser = await launch();
  });
  afterEach(async () => {
    await Promise.all(browser.contexts().map((context) => context.close()));
  });
  afterAll(() => browser.close());
}

/** As `useBrowser`, and a new `boat` for each test, which begins with this script. */
export function useFakeBoat(change?: (state: State, at: number) => void): void {
  beforeEach(async () => {
    boat = await startFakeBoat(pages());
    if (change) boat.script(change);
  });
  afterEach(() => boat.stop());
  // Later hooks are undone first: pages are closed before their boat is gone.
  useBrowser();
}
