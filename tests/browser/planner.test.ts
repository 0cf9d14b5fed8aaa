import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { PlanAnswer } from '../../shared/messages/plan.ts';
import { expectNoFaults, open, SCREENS, textOf } from './browser.ts';
import type { Boat } from './fakeBoat.ts';
import { findings, misfits } from './looks.ts';
import { startRealBoat } from './realBoat.ts';
import { browser, useBrowser } from './stage.ts';

let boat: Boat;

useBrowser();
beforeAll(async () => {
  boat = await startRealBoat();
});
afterAll(() => boat.stop());

const sentence = (page: Page) => page.locator('.planner .report');
const veer = (page: Page) => page.locator('.planner .dominant');
const cable = (page: Page) => page.locator('.side-view .cable').first();
const field = (page: Page, label: string) => page.getByLabel(label, { exact: true });

/** A plan of figures that no instrument changes: 6 m now, 25 kn. */
async function planned(page: Page): Promise<void> {
  await sentence(page).filter({ hasText: 'Veer' }).waitFor();
  await answered(page, async () => {
    await field(page, 'Depth now, m').fill('6');
    await field(page, 'Wind to prepare for, kn').fill('25');
  });
}

/** Does something that asks for a new plan; resolves to the plan of what is written then, once it is shown. */
async function answered(page: Page, act: () => Promise<unknown>): Promise<PlanAnswer['items']> {
  let latest: PlanAnswer | undefined;
  const hear = async (response: { url(): string; json(): Promise<unknown> }) => {
    if (!response.url().endsWith('/api/v1/plan')) return;
    // The page gives up a question as soon as it has a newer one; the body of such an answer is gone.
    const body = await response.json().catch(() => undefined);
    if (body) latest = body as PlanAnswer;
  };
  page.on('response', hear);
  await act();
  await page.locator('.planner-lead.pending').waitFor({ state: 'detached' });
  await expect
    .poll(async () => latest && (await textOf(veer(page))).startsWith(`${latest.items.veer.value}`))
    .toBe(true);
  page.off('response', hear);
  return latest!.items;
}

describe('the plan', () => {
  test('starts from what the boat knows and says what to veer, how sure, and by which formula', async () => {
    const page = await open(browser, boat);
    await page.getByRole('button', { name: 'Pages and settings' }).click();
    await page.getByRole('link', { name: 'Plan' }).click();
    await sentence(page)
      .filter({ hasText: /^Veer \d+\sm: the pull stays along the bottom in/ })
      .waitFor();
    expect(Number(await field(page, 'Depth now, m').inputValue())).toBeGreaterThan(2);
    expect(await textOf(veer(page))).toMatch(/^\d+\s*m$/);
    const load = page.locator('.planner .cell', { has: page.getByText('Load', { exact: true }) });
    expect(await textOf(load)).toMatch(/\d\.\d\s*kN\s*± \d/);
    await load.locator('summary').click();
    await load.getByText('Formula: wind and stream from the same side.').waitFor();
    await page.getByText('No tide is counted: the water is taken to stay as it is now.').waitFor();
    await page.getByText(/no plan replaces a look at the chart/).waitFor();
    await page.getByRole('img', { name: /^Side view to scale: \d+\sm of cable/ }).waitFor();
    expectNoFaults(page);
  });

  test('more wind takes more cable, and the drawing follows', async () => {
    const page = await open(browser, boat, '/plan');
    await planned(page);
    const before = {
      figure: Number.parseInt(await textOf(veer(page)), 10),
      line: await cable(page).getAttribute('d'),
    };
    const items = await answered(page, () =>
      page.getByRole('button', { name: 'More: Wind to prepare for' }).click(),
    );
    expect(await field(page, 'Wind to prepare for, kn').inputValue()).toBe('30');
    expect(items.veer.value).toBeGreaterThan(before.figure);
    expect(await cable(page).getAttribute('d')).not.toBe(before.line);
    expect(await textOf(sentence(page))).toMatch(new RegExp(`^Veer ${items.veer.value}\\sm.*30\\skn`));
    expectNoFaults(page);
  });

  test('a lighter chain takes more cable; a size tells its working load', async () => {
    const page = await open(browser, boat, '/plan');
    await planned(page);
    const before = Number.parseInt(await textOf(veer(page)), 10);
    const items = await answered(page, () => page.getByLabel('Chain', { exact: true }).selectOption('8'));
    expect(items.veer.value).toBeGreaterThan(before);
    const share = page.locator('.planner .cell', { hasText: 'Of the working load' });
    await share.locator('summary').click();
    await share.getByText(/^Source: .*grade 30/).waitFor();
    expectNoFaults(page);
  });

  test('by arrow keys too, and in feet', async () => {
    const page = await open(browser, boat, '/plan');
    await planned(page);
    await page.getByRole('button', { name: 'Pages and settings' }).click();
    await page.locator('.choice label', { hasText: /^ft$/ }).click();
    await page.getByRole('button', { name: 'Pages and settings' }).click();
    expect(await field(page, 'Depth now, ft').inputValue()).toBe('19.7');
    await field(page, 'Depth now, ft').press('ArrowUp');
    expect(await field(page, 'Depth now, ft').inputValue()).toBe('20');
    await expect.poll(() => textOf(veer(page))).toMatch(/^\d{3}\s*ft$/);
    expectNoFaults(page);
  });

  test('room that is too small and a tide that takes the water are said in the first sentence', async () => {
    const page = await open(browser, boat, '/plan');
    await planned(page);
    await field(page, 'Room, m').fill('20');
    await sentence(page).filter({ hasText: 'Her circle is larger than the room.' }).waitFor();
    await field(page, 'Fall to low water, m').fill('5');
    await sentence(page).filter({ hasText: 'She takes the ground at low water' }).waitFor();
    await page.locator('.side-view text', { hasText: 'm too little under the keel' }).waitFor();
    expectNoFaults(page);
  });

  test('a length in mind that lifts the anchor is said to', async () => {
    const page = await open(browser, boat, '/plan');
    await planned(page);
    await field(page, 'Length in mind, m').fill('22');
    await sentence(page)
      .filter({ hasText: /^With 22\sm out the anchor is pulled upwards by \d+\.\d° in 25\skn/ })
      .waitFor();
    expectNoFaults(page);
  });
});

describe('what is wrong is told at its input', () => {
  const CASES = [
    { label: 'Depth now, m', text: 'deep', says: 'Write a number.' },
    { label: 'Depth now, m', text: '', says: 'Needed for a plan.' },
    { label: 'Wind to prepare for, kn', text: '400', says: 'Allowed: 0 to 155.5 kn.' },
    // These two only the planner can know.
    { label: 'Fall to low water, m', text: '7', says: 'Fall to low water is more than the depth' },
    { label: 'Length in mind, m', text: '5', says: '5 m of cable do not reach the bottom' },
  ];

  test.each(CASES)('$label: $text', async ({ label, text, says }) => {
    const page = await open(browser, boat, '/plan');
    await planned(page);
    const input = field(page, label);
    await input.fill(text);
    const told = page.locator(`[id="${await input.getAttribute('aria-describedby')}"]`);
    await told.filter({ hasText: says }).waitFor();
    expect(await input.getAttribute('aria-invalid')).toBe('true');
    // No figure stays that does not belong to what is written.
    expect(await textOf(veer(page))).toBe('—');
    expect(await page.locator('.side-view text').count()).toBe(0);
    await input.fill(label.startsWith('Depth') ? '6' : label.startsWith('Wind') ? '25' : '');
    await sentence(page).filter({ hasText: 'Veer' }).waitFor();
    expectNoFaults(page);
  });
});

describe('an answer that is late or lost', () => {
  test('until it comes, the old figures are marked and the drawing bears none', async () => {
    const page = await open(browser, boat, '/plan');
    await planned(page);
    let free = () => {};
    const gate = new Promise<void>((resolve) => {
      free = resolve;
    });
    await page.route('**/api/v1/plan', async (route) => {
      await gate;
      await route.continue();
    });
    await field(page, 'Wind to prepare for, kn').fill('40');
    await page.locator('.planner-lead.pending .beside', { hasText: 'Working it out…' }).waitFor();
    expect(await page.locator('.side-view.outline').count()).toBe(1);
    expect(await page.locator('.side-view text').count()).toBe(0);
    free();
    await sentence(page)
      .filter({ hasText: /40\skn/ })
      .waitFor();
    expect(await page.locator('.planner .pending').count()).toBe(0);
    expectNoFaults(page);
  });

  test('without the link the plan is kept and marked, and nothing new is made up', async () => {
    const gone = await startRealBoat();
    const page = await open(browser, gone, '/plan');
    await planned(page);
    const before = await textOf(veer(page));
    await gone.stop();
    await page.getByText(/^Worked out at \d\d:\d\d, before the link was lost/).waitFor();
    expect(await textOf(veer(page))).toBe(before);
    await field(page, 'Wind to prepare for, kn').fill('40');
    await page.getByText('No link to the boat: nothing new can be worked out until it is back.').waitFor();
    expect(await textOf(veer(page))).toBe('—');
  });
});

describe('looks', () => {
  test.each(['day', 'night'] as const)('axe finds no fault in the %s palette', async (palette) => {
    const page = await open(browser, boat, '/plan', {
      colorScheme: palette === 'day' ? 'light' : 'dark',
      reducedMotion: 'reduce',
    });
    await planned(page);
    expect(await findings(page)).toEqual([]);
    for (const summary of await page.locator('.planner summary').all()) await summary.click();
    await field(page, 'Depth now, m').fill('deep');
    await page.locator('.stepper .trouble').waitFor();
    expect(await findings(page)).toEqual([]);
    expectNoFaults(page);
  });

  test.each(Object.entries(SCREENS))(
    'nothing is wider than %s, cut off or too small to hit',
    async (_name, viewport) => {
      const page = await open(browser, boat, '/plan', { viewport, reducedMotion: 'reduce' });
      await planned(page);
      await answered(page, async () => {
        await field(page, 'Rise to high water, m').fill('1.5');
        await field(page, 'Fall to low water, m').fill('0.8');
      });
      const before = await misfits(page);
      const drawn = await outside(page);
      for (const summary of await page.locator('.planner summary').all()) await summary.click();
      await page.getByLabel('Chain', { exact: true }).selectOption('mass');
      expect({ before, drawn, opened: await misfits(page) }).toEqual({ before: [], drawn: [], opened: [] });
    },
  );

  /** Words of the drawing that leave it or lie over each other. */
  function outside(page: Page): Promise<string[]> {
    return page.evaluate(() => {
      const frame = document.querySelector('.side-view')!.getBoundingClientRect();
      const texts = [...document.querySelectorAll('.side-view text')];
      const found: string[] = [];
      for (const [i, text] of texts.entries()) {
        const a = text.getBoundingClientRect();
        if (a.left < frame.left || a.right > frame.right || a.top < frame.top || a.bottom > frame.bottom)
          found.push(`outside: ${text.textContent}`);
        for (const other of texts.slice(i + 1)) {
          const b = other.getBoundingClientRect();
          const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
          const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
          if (across > 0 && down > 3) found.push(`${text.textContent} over ${other.textContent}`);
        }
      }
      return found;
    });
  }

  test('the first script stays small: a boat’s Wi-Fi is slow', () => {
    const assets = fileURLToPath(new URL('../../dist/web/assets', import.meta.url));
    const [script] = readdirSync(assets).filter((name) => /^index-.*\.js$/.test(name));
    expect(gzipSync(readFileSync(`${assets}/${script}`)).length).toBeLessThan(50_000);
  });
});
