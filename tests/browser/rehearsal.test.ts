import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { expectNoFaults, open, soundOn, textOf } from './browser.ts';
import type { Boat } from './fakeBoat.ts';
import { startRealBoat } from './realBoat.ts';
import { browser, useBrowser } from './stage.ts';

let boat: Boat;

beforeEach(async () => {
  boat = await startRealBoat();
});
afterEach(() => boat.stop());
useBrowser();

describe('the pages on the daemon itself', () => {
  test('show a rehearsed boat: figures, plan, inputs, and that it is simulated', async () => {
    const page = await open(browser, boat);
    await page.locator('.dominant', { hasText: /\d+\s*m/ }).waitFor();
    await page.locator('.plan .hull').waitFor();
    await page.locator('.plan .circle').waitFor();
    await page.getByText(/^SIMULATED: /).waitFor();
    await page.getByRole('button', { name: 'Pages and settings' }).click();
    await page.getByRole('link', { name: 'Instruments' }).click();
    await page.locator('.input', { hasText: 'simulator' }).waitFor();
    // The boat lists this very page by what its own script tells.
    await page.locator('.open-pages li', { hasText: 'instruments · in view · no sound' }).waitFor();
    await soundOn(page);
    await page.locator('.open-pages li', { hasText: 'instruments · in view · sound runs' }).waitFor();
    expectNoFaults(page);
  });

  test('a circle set by hand on one page shows on the other, and its alarm is acknowledged for both', async () => {
    const bunk = await open(browser, boat);
    const table = await open(browser, boat);
    await bunk.locator('.dominant', { hasText: /\d+\s*m/ }).waitFor();
    await bunk.locator('summary', { hasText: 'Cable, circle and limits' }).click();
    await bunk.getByLabel(/Radius of the circle, m/).fill('0');
    await bunk.getByRole('button', { name: 'Set these' }).click();
    // Refused in words that say what is allowed.
    await bunk
      .getByRole('status')
      .getByText(/circleRadius/)
      .waitFor();
    await bunk.getByLabel(/Radius of the circle, m/).fill('12');
    await bunk.getByRole('button', { name: 'Set these' }).click();
    await table.getByText(/circle 12\sm set by hand/).waitFor();

    const alarm = table.locator('.alert.alarm', { hasText: 'Outside the circle' });
    await alarm.getByRole('button', { name: 'Acknowledge', exact: true }).waitFor();
    await bunk.locator('.alert.alarm').getByRole('button', { name: 'Acknowledge', exact: true }).click();
    await alarm.getByText('acknowledged', { exact: true }).waitFor();
    expect(await table.getByRole('button', { name: 'Acknowledge', exact: true }).count()).toBe(0);
    expectNoFaults(bunk);
    expectNoFaults(table);
  });

  test('aweigh closes the mark, let go sets it again', async () => {
    const page = await open(browser, boat);
    await page.locator('.dominant', { hasText: /\d+\s*m/ }).waitFor();
    await page.locator('summary', { hasText: 'Mark' }).click();
    await page.getByRole('button', { name: /Anchor aweigh/ }).hover();
    await page.mouse.down();
    await page.getByRole('button', { name: 'Let go: mark the anchor here' }).waitFor();
    await page.mouse.up();
    await page.getByRole('button', { name: 'Let go: mark the anchor here' }).click();
    await page.locator('.dominant', { hasText: /^\d\s*m/ }).waitFor();
    expectNoFaults(page);
  });

  test('a daemon that is stopped says goodbye, and the page says that nobody is watching', async () => {
    const page = await open(browser, boat);
    await page.locator('.dominant', { hasText: /\d+\s*m/ }).waitFor();
    await boat.stop();
    await page.locator('.link-banner', { hasText: 'The daemon has stopped: nobody is watching.' }).waitFor();
    expect(await textOf(page.locator('.dominant'))).toBe('—');
  });
});
