import { describe, expect, test } from 'vitest';
import { expectNoFaults, open, played, soundOn, textOf } from './browser.ts';
import { boat, browser, useFakeBoat } from './stage.ts';

useFakeBoat();

const LOST = /No word from the boat for \d+\ss: this page is not watching/;

describe('the link to the boat', () => {
  test('a boat that falls silent is told loudly, takes the figures with it, and sounds an alarm of its own', async () => {
    const page = await open(browser, boat);
    await page.locator('.dominant').getByText('m').waitFor();
    await soundOn(page);
    boat.hush();
    await page.getByText(LOST).waitFor();
    expect(await textOf(page.locator('.report'))).toMatch(/unknown to this page/);
    expect(await textOf(page.locator('.dominant'))).toBe('—');
    expect(await page.locator('.cell .figure').allInnerTexts()).toEqual(Array(6).fill('—'));
    expect(await page.locator('.plan .hull').count()).toBe(0);
    // The mark and the circle are no measurements: they stay.
    expect(await page.locator('.plan .circle').count()).toBe(1);
    await expect.poll(async () => (await played(page)).linkLost).toBeGreaterThanOrEqual(2);
    expect((await played(page)).alarm).toBe(0);
    expect(await textOf(page.getByRole('alert'))).toMatch(/No word from the boat/);
    expect(await page.title()).toMatch(/^No word/);
    expectNoFaults(page);
  });

  test('acknowledged on this screen it stays on the screen and is quiet', async () => {
    const page = await open(browser, boat);
    await soundOn(page);
    boat.hush();
    await page.getByText(LOST).waitFor();
    await expect.poll(async () => (await played(page)).linkLost).toBeGreaterThanOrEqual(2);
    await page.locator('.link-banner').getByRole('button', { name: 'Acknowledge' }).click();
    const before = (await played(page)).linkLost;
    await new Promise((resolve) => setTimeout(resolve, 8000));
    expect((await played(page)).linkLost).toBe(before);
    expect(await page.getByText(LOST).count()).toBe(1);
  });

  test('comes back by itself, asks for what it missed, and says how long it was blind', async () => {
    const page = await open(browser, boat);
    await page.locator('.dominant').getByText('m').waitFor();
    boat.hush();
    await page.getByText(LOST).waitFor();
    boat.speak();
    await page.getByText(/No word from the boat reached this page \d\d:\d\d–\d\d:\d\d/).waitFor();
    expect(await page.getByText(LOST).count()).toBe(0);
    await page.locator('.dominant').getByText('m').waitFor();
    expect(boat.connections.at(-1)).toMatch(/since=\d+/);
    await page.getByRole('button', { name: 'Seen' }).click();
    expect(await page.getByText(/reached this page/).count()).toBe(0);
    expectNoFaults(page);
  });

  test('a network that is gone without a word is noticed too', async () => {
    const page = await open(browser, boat);
    await page.locator('.dominant').getByText('m').waitFor();
    await page.context().setOffline(true);
    await page.getByText(LOST).waitFor();
    expect(await textOf(page.locator('.dominant'))).toBe('—');
    await page.context().setOffline(false);
    await page.locator('.dominant').getByText('m').waitFor();
    expect(await page.getByText(LOST).count()).toBe(0);
  });

  test('a page that has slept says so and calls anew', async () => {
    const page = await open(browser, boat);
    await page.locator('.dominant').getByText('m').waitFor();
    const calls = boat.connections.length;
    // The wall clock jumps as it does for a page that was frozen meanwhile.
    await page.evaluate(() => {
      const real = Date.now.bind(Date);
      Date.now = () => real() + 20 * 60_000;
    });
    await page.getByText(/This computer was asleep \d\d:\d\d–\d\d:\d\d and watched nothing/).waitFor();
    await expect.poll(() => boat.connections.length).toBe(calls + 1);
    expectNoFaults(page);
  });

  test('a socket that breaks is replaced before anybody needs to know', async () => {
    const page = await open(browser, boat);
    await page.locator('.dominant').getByText('m').waitFor();
    boat.cut();
    await expect.poll(() => boat.connections.length).toBeGreaterThanOrEqual(2);
    expect(boat.connections.at(-1)).toMatch(/since=\d+/);
    expect(await page.getByText(LOST).count()).toBe(0);
    expect(await textOf(page.locator('.dominant'))).toMatch(/m$/);
    expectNoFaults(page);
  });

  test('a daemon that stops says so, and the page says that nobody is watching', async () => {
    const page = await open(browser, boat);
    await soundOn(page);
    boat.goodbye('the daemon was stopped (SIGTERM)');
    await page.locator('.link-banner', { hasText: 'The daemon has stopped: nobody is watching.' }).waitFor();
    expect(await page.getByText('the daemon was stopped (SIGTERM)').count()).toBe(1);
    expect(await textOf(page.locator('.dominant'))).toBe('—');
    await expect.poll(async () => (await played(page)).linkLost).toBeGreaterThanOrEqual(2);
    expect(await textOf(page.getByRole('alert'))).toMatch(/daemon has stopped/);
  });

  test('a page that never reaches the boat says so as well', async () => {
    boat.hush();
    const page = await open(browser, boat);
    await page.getByText(LOST).waitFor();
    expect(await page.locator('.dominant').count()).toBe(0);
  });

  test('figures that stand still while the pulses go on are not shown', async () => {
    const page = await open(browser, boat);
    await page.locator('.dominant').getByText('m').waitFor();
    boat.stall();
    await page.getByText(/her figures stand still/).waitFor();
    expect(await textOf(page.locator('.dominant'))).toBe('—');
    expect(await page.getByText(LOST).count()).toBe(0);
  });
});
