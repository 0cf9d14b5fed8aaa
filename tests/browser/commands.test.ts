import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { expectNoFaults, open, textOf } from './browser.ts';
import { boat, browser, useFakeBoat } from './stage.ts';

useFakeBoat();

const openPanel = (page: Page, title: string) => page.locator('summary').filter({ hasText: title }).click();

const noMark = () =>
  boat.script((state) => {
    delete state.watch.mark;
  });

describe('the mark', () => {
  test('without one the page offers one thing to do, and one tap does it', async () => {
    noMark();
    const page = await open(browser, boat);
    await page.getByText('No mark: nobody watches the anchor.').waitFor();
    expect(await page.locator('.dominant').count()).toBe(0);
    await page.getByRole('button', { name: 'Let go: mark the anchor here' }).click();
    await page.locator('.dominant').waitFor();
    expect(boat.commands).toEqual(['POST /mark {}']);
    expectNoFaults(page);
  });

  test('aweigh asks to be held for a second: a short press does nothing', async () => {
    const page = await open(browser, boat);
    await openPanel(page, 'Mark');
    const button = page.getByRole('button', { name: /Anchor aweigh/ });
    await button.click();
    expect(boat.commands).toEqual([]);
    await button.hover();
    await page.mouse.down();
    await expect.poll(() => boat.commands).toEqual(['POST /weigh/aweigh']);
    await page.mouse.up();
    await page.getByRole('button', { name: /Let go/ }).waitFor();
  });

  test('by keyboard it is held as well', async () => {
    const page = await open(browser, boat);
    await openPanel(page, 'Mark');
    await page.getByRole('button', { name: /Anchor aweigh/ }).focus();
    await page.keyboard.press('Enter');
    expect(boat.commands).toEqual([]);
    await page.keyboard.down('Enter');
    await expect.poll(() => boat.commands).toEqual(['POST /weigh/aweigh']);
    await page.keyboard.up('Enter');
  });

  test('an assistive technique that can only press presses twice', async () => {
    const page = await open(browser, boat);
    await openPanel(page, 'Mark');
    const button = page.getByRole('button', { name: /Anchor aweigh/ });
    await button.evaluate((element: HTMLElement) => element.click());
    expect(await textOf(button)).toContain('press once more to confirm');
    expect(boat.commands).toEqual([]);
    await button.evaluate((element: HTMLElement) => element.click());
    await expect.poll(() => boat.commands).toEqual(['POST /weigh/aweigh']);
  });

  test('is told by bearing and distance in this screen’s unit, or by position as a chart writes it', async () => {
    const page = await open(browser, boat);
    await page.getByRole('button', { name: 'Pages and settings' }).click();
    await page.getByRole('radio', { name: 'ft' }).check();
    await page.getByRole('button', { name: 'Pages and settings' }).click();
    await openPanel(page, 'Mark');
    await page.getByLabel('Bearing of the anchor, ° true').fill('231');
    await page.getByLabel('Distance from the roller, ft').fill('100');
    await page.getByRole('button', { name: 'Mark there' }).first().click();
    await expect.poll(() => boat.commands).toEqual(['POST /mark {"bearing":231,"distance":30.48}']);
    await page.getByLabel(/^Latitude/).fill('16 30.500 S');
    await page.getByLabel(/^Longitude/).fill('179°59\'24"E');
    await page.getByRole('button', { name: 'Mark there' }).last().click();
    await expect.poll(() => boat.commands.length).toBe(2);
    const told = JSON.parse(boat.commands[1]!.replace('POST /mark ', ''));
    expect(told.lat).toBeCloseTo(-16.508333, 6);
    expect(told.lon).toBeCloseTo(179.99, 6);
    expectNoFaults(page);
  });

  test('what is not understood is said and not sent', async () => {
    const page = await open(browser, boat);
    await openPanel(page, 'Mark');
    await page.getByLabel('Bearing of the anchor, ° true').fill('north');
    await page.getByRole('button', { name: 'Mark there' }).first().click();
    await page.getByText('Bearing of the anchor, ° true: write a number.').waitFor();
    await page.getByLabel(/^Latitude/).fill('here');
    await page.getByRole('button', { name: 'Mark there' }).last().click();
    await page.getByText(/^Latitude.*: degrees, minutes and N, S, E or W\.$/).waitFor();
    expect(boat.commands).toEqual([]);
  });
});

describe('cable, circle and limits', () => {
  test('only what was changed is sent, in SI; an emptied limit is given up', async () => {
    const page = await open(browser, boat);
    await openPanel(page, 'Cable, circle and limits');
    const depth = page.getByLabel(/Alarm when shallower than, m/);
    expect(await depth.inputValue()).toBe('2.5');
    expect(await page.getByLabel(/Warning when the wind exceeds, kn/).inputValue()).toBe('25');
    await page.getByLabel('Cable veered, m').fill('40,5');
    await page.getByLabel(/Warning when the wind exceeds, kn/).fill('30');
    await depth.fill('');
    await page.getByRole('button', { name: 'Set these' }).click();
    await page.getByText('Set.', { exact: true }).waitFor();
    const told = JSON.parse(boat.commands[0]!.replace('PATCH /watch ', ''));
    expect(told.veered).toBe(40.5);
    expect(told.limits.depthBelow).toBeNull();
    // 30 kn is 15.433 m/s (1852 m an hour, exact).
    expect(told.limits.windAbove).toBeCloseTo(15.4333, 3);
    expect(Object.keys(told).sort()).toEqual(['limits', 'veered']);
    expect(Object.keys(told.limits).sort()).toEqual(['depthBelow', 'windAbove']);
    expectNoFaults(page);
  });

  test('a refusal shows the boat’s own words and keeps what was typed', async () => {
    const page = await open(browser, boat);
    await openPanel(page, 'Cable, circle and limits');
    await page.getByLabel(/Radius of the circle, m/).fill('2');
    await page.getByRole('button', { name: 'Set these' }).click();
    await page
      .getByText('circleRadius is 2 m; allowed is 5 to 2000 m, or null for a computed circle.')
      .waitFor();
    expect(await page.getByLabel(/Radius of the circle, m/).inputValue()).toBe('2');
    await page.getByLabel(/Radius of the circle, m/).fill('50');
    await page.getByRole('button', { name: 'Set these' }).click();
    await page
      .locator('.plan')
      .getByText(/circle 50\sm/)
      .waitFor();
  });

  test('nothing typed, nothing sent', async () => {
    const page = await open(browser, boat);
    await openPanel(page, 'Cable, circle and limits');
    await page.getByRole('button', { name: 'Set these' }).click();
    await page.getByText('Nothing was changed.').waitFor();
    await page.getByLabel('Cable veered, m').fill('');
    await page.getByRole('button', { name: 'Set these' }).click();
    await page.getByText('Cable veered, m: write a number.').waitFor();
    expect(boat.commands).toEqual([]);
  });
});

describe('weighing and names', () => {
  test('starts and stops, with the caution beside the button', async () => {
    const page = await open(browser, boat);
    await openPanel(page, 'Weigh');
    await page.getByText(/The windlass takes in slack cable only and never pulls the boat/).waitFor();
    await page.getByRole('button', { name: 'Start to weigh' }).click();
    await page.getByRole('button', { name: 'Stop weighing' }).click();
    await page.getByRole('button', { name: 'Start to weigh' }).waitFor();
    expect(boat.commands).toEqual(['POST /weigh {}', 'DELETE /weigh']);
  });

  test('a command bears the screen’s name, whatever letters it has', async () => {
    const page = await open(browser, boat);
    await page.getByRole('button', { name: 'Pages and settings' }).click();
    await page.getByLabel('Name of this screen on the others').fill('Köje 2');
    await page.getByRole('button', { name: 'Pages and settings' }).click();
    await openPanel(page, 'Weigh');
    await page.getByRole('button', { name: 'Start to weigh' }).click();
    await expect.poll(() => boat.authors).toEqual(['Köje 2']);
  });

  test('a screen without the key is told how to get it before it tries', async () => {
    boat.lookOnly();
    const page = await open(browser, boat);
    await page.getByText('This screen may look only.').waitFor();
  });
});
