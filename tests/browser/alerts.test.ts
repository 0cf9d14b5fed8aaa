import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import type { Alert } from '../../shared/alerts/alert.ts';
import { expectNoFaults, open, played, soundOn, textOf } from './browser.ts';
import { outsideCircle, slowClock, strongWind } from './fakeState.ts';
import { boat, browser, useFakeBoat } from './stage.ts';

useFakeBoat();

const tellAlerts = (...alerts: Alert[]) =>
  boat.script((state) => {
    state.alerts = alerts;
  });
/** Exactly: the line of an acknowledged alert has the word in its name too. */
const ACKNOWLEDGE = { name: 'Acknowledge', exact: true };
const seconds = () => Date.now() / 1000;
const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
const alert = (page: Page, words: string) => page.locator('.alert', { hasText: words });

describe('an alert', () => {
  test('says its priority, what, since when, and what was measured against what limit', async () => {
    tellAlerts(outsideCircle(seconds()), strongWind(seconds()), slowClock(seconds()));
    const page = await open(browser, boat);
    await alert(page, 'Outside the circle').waitFor();
    const text = await textOf(alert(page, 'Outside the circle'));
    expect(text).toMatch(/^Alarm\s+Outside the circle/);
    expect(text).toMatch(/46\.3\sm\s+limit 42\.0\sm/);
    expect(text).toContain('The roller is');
    expect(text).toMatch(/since \d\d:\d\d/);
    // The others are a line each until they are opened; a caution asks for nothing.
    expect(await page.getByRole('button', ACKNOWLEDGE).count()).toBe(1);
    await page.getByRole('button', { name: /^Warning/ }).click();
    expect(await textOf(alert(page, 'Warning'))).toMatch(/27\skn\s+limit 25\skn/);
    await page.getByRole('button', { name: /^Caution/ }).click();
    expect(await page.getByRole('button', ACKNOWLEDGE).count()).toBe(0);
    expect(await textOf(alert(page, 'Caution'))).toMatch(/7\ss slow/);
    expectNoFaults(page);
  });

  test('something more urgent takes the place of what was opened before', async () => {
    tellAlerts(strongWind(seconds()));
    const page = await open(browser, boat);
    await alert(page, 'Warning').getByRole('button', ACKNOWLEDGE).waitFor();
    tellAlerts(strongWind(seconds()), outsideCircle(seconds()));
    await alert(page, 'Alarm').getByRole('button', ACKNOWLEDGE).waitFor();
  });

  test('is announced once for each change of state, never for its figures', async () => {
    let value = 43;
    boat.script((state) => {
      value += 0.1;
      state.alerts = [
        { ...outsideCircle(1), text: `The roller is ${value.toFixed(1)} m from the mark.`, value },
      ];
    });
    const page = await open(browser, boat);
    await alert(page, 'Outside the circle').waitFor();
    const region = page.getByRole('alert');
    const first = await textOf(region);
    expect(first).toMatch(/^Alarm: Outside the circle\. The roller is/);
    await region.evaluate((element) => {
      new MutationObserver((changes) => {
        document.body.dataset.spoken = String(Number(document.body.dataset.spoken ?? 0) + changes.length);
      }).observe(element, { childList: true, characterData: true, subtree: true });
    });
    await wait(1500);
    expect(await textOf(region)).toBe(first);
    await page.getByRole('button', ACKNOWLEDGE).click();
    await expect.poll(() => textOf(region)).toMatch(/Outside the circle\. acknowledged/);
    expect(await page.locator('body').getAttribute('data-spoken')).toBe('1');
  });

  test('pulses until it is acknowledged, and is steady for those who want less motion', async () => {
    tellAlerts(outsideCircle(seconds()));
    const animation = (page: Page) =>
      page.locator('.alert-head').evaluate((head) => getComputedStyle(head).animationName);
    const lively = await open(browser, boat);
    await lively.locator('.alert-head').waitFor();
    expect(await animation(lively)).toBe('inverse');
    const calm = await open(browser, boat, '/', { reducedMotion: 'reduce' });
    await calm.locator('.alert-head').waitFor();
    expect(await animation(calm)).toBe('none');
    // Steady, but inverse all the same.
    const ground = await calm
      .locator('.alert-head')
      .evaluate((head) => getComputedStyle(head).backgroundColor);
    expect(ground).toBe('rgb(255, 106, 61)');
    await lively.getByRole('button', ACKNOWLEDGE).click();
    await expect.poll(() => animation(lively)).toBe('none');
  });

  test('over but not acknowledged is shown as such', async () => {
    tellAlerts({ ...outsideCircle(seconds()), state: 'rectified-unacknowledged' });
    const page = await open(browser, boat);
    await alert(page, 'over now, not acknowledged yet').waitFor();
    expect(await page.getByRole('button', { name: 'Silence 30 s' }).count()).toBe(0);
    await page.getByRole('button', ACKNOWLEDGE).click();
    await expect.poll(() => boat.commands).toEqual(['POST /alerts/outside-circle.1/acknowledge']);
  });

  test('acknowledged on one page it is so on every page', async () => {
    tellAlerts(outsideCircle(seconds()));
    const bunk = await open(browser, boat);
    const table = await open(browser, boat, '/instruments');
    await soundOn(table);
    await expect.poll(async () => (await played(table)).alarm).toBeGreaterThanOrEqual(3);
    await bunk.getByRole('button', ACKNOWLEDGE).click();
    await alert(table, 'acknowledged').waitFor();
    expect(await table.getByRole('button', ACKNOWLEDGE).count()).toBe(0);
    const before = (await played(table)).alarm;
    await wait(8000);
    expect((await played(table)).alarm).toBe(before);
  });

  test('the controls are out of each other’s way and differ in shape', async () => {
    tellAlerts(outsideCircle(seconds()));
    const page = await open(browser, boat, '/', { viewport: { width: 320, height: 640 } });
    const box = async (name: string) =>
      (await page.getByRole('button', { name, exact: true }).boundingBox())!;
    const [yes, quiet] = [await box('Acknowledge'), await box('Silence 30 s')];
    expect(yes.height).toBeGreaterThanOrEqual(64);
    expect(quiet.height).toBeGreaterThanOrEqual(44);
    expect(yes.x - (quiet.x + quiet.width)).toBeGreaterThanOrEqual(24);
    expect(yes.y + yes.height).toBeLessThanOrEqual(640);
    const radius = (name: string) =>
      page
        .getByRole('button', { name, exact: true })
        .evaluate((button) => Number.parseFloat(getComputedStyle(button).borderRadius));
    expect(await radius('Silence 30 s')).toBeGreaterThan(20);
    expect(await radius('Acknowledge')).toBeLessThan(8);
  });

  test('a command that fails says why in the boat’s words', async () => {
    tellAlerts(outsideCircle(seconds()));
    boat.refuse('This device may look, not command.');
    const page = await open(browser, boat);
    await page.getByRole('button', ACKNOWLEDGE).click();
    await page.getByRole('status').getByText('This device may look, not command.').waitFor();
    expect(await page.getByRole('button', ACKNOWLEDGE).isEnabled()).toBe(true);
  });
});

describe('the sound', () => {
  /**
   * Driving a page by script counts as a person's touch in this browser and would unlock the sound; so the page reports by
   * itself, and the test asks it nothing until it taps with the mouse.
   */
  const REPORTER = `setInterval(() => {
    if (window.hawseSound) console.log('sound ' + JSON.stringify({
      touched: navigator.userActivation.hasBeenActive,
      state: hawseSound.state,
      signals: hawseSound.signalsPlayed,
      peak: hawseSound.peak,
    }));
  }, 100)`;

  interface Report {
    touched: boolean;
    state: string;
    signals: number;
    peak: number;
  }

  async function openReporting(): Promise<{ page: Page; reports: Report[] }> {
    const context = await browser.newContext({ viewport: { width: 390, height: 844 }, colorScheme: 'dark' });
    const page = await context.newPage();
    const reports: Report[] = [];
    page.on('console', (message) => {
      const text = message.text();
      if (text.startsWith('sound ')) reports.push(JSON.parse(text.slice(6)));
    });
    await page.addInitScript(REPORTER);
    await page.goto(boat.url);
    return { page, reports };
  }

  test('is off until a person taps, and says so; then it runs, and an alarm can really be heard', async () => {
    tellAlerts(outsideCircle(seconds()));
    const { page, reports } = await openReporting();
    await expect.poll(() => reports.length).toBeGreaterThan(20);
    expect(reports.at(-1)).toMatchObject({ touched: false, state: 'off', signals: 0, peak: 0 });

    await soundOn(page);
    await expect.poll(() => reports.at(-1)?.touched).toBe(true);
    await expect.poll(async () => (await played(page)).test).toBe(1);
    await expect.poll(async () => (await played(page)).alarm).toBeGreaterThanOrEqual(3);
    await expect.poll(() => Math.max(...reports.map(({ peak }) => peak))).toBeGreaterThan(0.2);
    await page.getByRole('button', { name: 'I heard it' }).click();
    expect(await page.getByRole('button', { name: /^This computer would wake you now/ }).count()).toBe(2);
    // Three more within the standard's 7 s, and again.
    await expect.poll(async () => (await played(page)).alarm).toBeGreaterThanOrEqual(9);
  });

  test('an alarm repeats; a warning sounds at its onset and not again at once; a caution softly, once', async () => {
    const page = await open(browser, boat);
    await soundOn(page);
    tellAlerts(slowClock(seconds()));
    await alert(page, 'Caution').waitFor();
    await expect.poll(async () => (await played(page)).caution).toBe(1);
    expect(await played(page)).toMatchObject({ alarm: 0, warning: 0 });
    tellAlerts(slowClock(seconds()), strongWind(seconds()));
    await expect.poll(async () => (await played(page)).warning).toBe(2);
    await wait(8000);
    expect(await played(page)).toMatchObject({ alarm: 0, warning: 2, caution: 1 });
  });

  test('a silenced alert is quiet and sounds again when the boat says that it is active again', async () => {
    tellAlerts(outsideCircle(seconds()));
    const page = await open(browser, boat);
    await soundOn(page);
    await expect.poll(async () => (await played(page)).alarm).toBeGreaterThanOrEqual(3);
    await page.getByRole('button', { name: 'Silence 30 s' }).click();
    await alert(page, 'silenced').waitFor();
    const before = (await played(page)).alarm;
    await wait(8000);
    expect((await played(page)).alarm).toBe(before);
    tellAlerts({ ...outsideCircle(seconds()), id: 'outside-circle.2' });
    await expect.poll(async () => (await played(page)).alarm).toBeGreaterThanOrEqual(Number(before) + 3);
  });

  test('its counters cannot be written', async () => {
    const page = await open(browser, boat);
    await page.locator('.report').waitFor();
    const after = await page.evaluate(() => {
      try {
        Object.assign(window, { hawseSound: { state: 'running' } });
      } catch {}
      try {
        Object.assign(window.hawseSound, { state: 'running' });
      } catch {}
      return window.hawseSound.state;
    });
    expect(after).toBe('off');
  });
});
