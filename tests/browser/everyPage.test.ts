import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { armPage, expectNoFaults, open, SCREENS, SMALL } from './browser.ts';
import { phoneView } from './fakeState.ts';
import { findings, misfits } from './looks.ts';
import { boat, browser, useFakeBoat } from './stage.ts';

// Whatever pages the menu lists: each must look right in both palettes and on every screen. A new page is covered by being there.

useFakeBoat((state, at) => {
  state.pages = [
    phoneView({ id: 'page1', name: 'bunk', armed: true, lastAt: at - 1 }),
    phoneView({
      id: 'page2',
      name: 'mate with a rather long name',
      armed: true,
      silent: true,
      lastAt: at - 500,
    }),
  ];
});

async function paths(page: Page): Promise<string[]> {
  await page.getByRole('button', { name: 'Pages and settings' }).click();
  const found = await page
    .locator('.drawer nav a')
    .evaluateAll((links) => links.map((link) => (link as HTMLAnchorElement).pathname));
  await page.getByRole('button', { name: 'Pages and settings' }).click();
  expect(found.length).toBeGreaterThan(3);
  return found;
}

/** By the menu, as a person goes: the page has come when the menu says its name. */
async function goTo(page: Page, path: string): Promise<void> {
  await page.getByRole('button', { name: 'Pages and settings' }).click();
  await page.locator(`.drawer nav a[href="${path}"]`).click();
  await page.locator('.drawer').waitFor({ state: 'detached' });
  await page.getByText('Loading this page…').waitFor({ state: 'detached' });
  await page.waitForTimeout(300);
}

describe.each(['day', 'night'] as const)('in the %s palette', (palette) => {
  test('axe finds no fault on any page, armed or not', async () => {
    const page = await open(browser, boat, '/', {
      colorScheme: palette === 'day' ? 'light' : 'dark',
      reducedMotion: 'reduce',
    });
    await page.locator('.report').waitFor();
    const found: Record<string, string[]> = {};
    for (const path of await paths(page)) {
      await goTo(page, path);
      const faults = await findings(page);
      if (faults.length > 0) found[path] = faults;
    }
    await goTo(page, '/');
    await armPage(page);
    await page.locator('.phone-now').click();
    const faults = await findings(page);
    if (faults.length > 0) found['/ armed'] = faults;
    expect(found).toEqual({});
    expectNoFaults(page);
  });
});

describe.each(Object.entries(SCREENS))('on %s', (_name, viewport) => {
  test('every page fits, and every control is big enough for a wet finger', async () => {
    const page = await open(browser, boat, '/', { viewport, reducedMotion: 'reduce' });
    await page.locator('.report').waitFor();
    const found: Record<string, string[]> = {};
    for (const path of await paths(page)) {
      await goTo(page, path);
      const faults = await misfits(page);
      if (faults.length > 0) found[path] = faults;
    }
    expect(found).toEqual({});
  });
});

describe('arming', () => {
  test('by keyboard alone; the names of armed phones stand on every page', async () => {
    const page = await open(browser, boat, '/instruments');
    await page.getByRole('button', { name: /^Arm this/ }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'I heard it' }).focus();
    await page.keyboard.press('Enter');
    const standing = page.getByRole('region', { name: 'This computer as an alarm' });
    await standing.getByText(/would wake you now/).waitFor();
    await standing.getByText('bunk would wake').waitFor();
    await standing.getByText(/mate with a rather long name is not heard \(\d\d:\d\d\)/).waitFor();
    await expect.poll(() => boat.heard.at(-1)).toMatchObject({ armed: true, sound: true });
    await page.keyboard.press('Enter');
  });

  test('who heard nothing is told what to mend and is not armed', async () => {
    const page = await open(browser, boat, '/', { viewport: SMALL });
    await page
      .getByRole('button', { name: /^Arm this/ })
      .first()
      .click();
    await page.getByRole('button', { name: 'I heard nothing' }).click();
    await page.getByText(/Turn the volume up, silent mode and do-not-disturb off/).waitFor();
    await page.waitForTimeout(2500);
    expect(boat.heard.at(-1)).toMatchObject({ armed: false });
  });
});
