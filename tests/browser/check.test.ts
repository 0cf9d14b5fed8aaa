import { expect, test } from 'vitest';
import type { State } from '../../shared/state.ts';
import { expectNoFaults, open, textOf } from './browser.ts';
import { findings, misfits } from './looks.ts';
import { boat, browser, useFakeBoat } from './stage.ts';

useFakeBoat(anchored);

const MARKED = Date.now() / 1000 - 3600;

function anchored(state: State): void {
  state.watch.mark!.at = MARKED;
  state.check = {
    measured: [
      { item: 'wind', state: 'look', text: 'Wind 19 kn from 230°, freshening, 14 kn an hour ago.' },
      { item: 'depth', state: 'good', text: '4.1 m under the keel here; on the way out look at the chart.' },
      { item: 'neighbours', state: 'unknown', text: 'hawse knows of no other vessel: look who lies near.' },
    ],
    items: ['Cooling water flows', 'Fenders and lines clear'],
  };
}

test.each(['light', 'dark'] as const)(
  'the check in the %s palette: all fits, axe finds nothing',
  async (colorScheme) => {
    const page = await open(browser, boat, '/check', { colorScheme });
    await page.locator('.ticks').waitFor();
    expect(await findings(page)).toEqual([]);
    expect(await misfits(page)).toEqual([]);
  },
);

test('counts what is to be looked at and not ticked, and logs what was ticked; it never stands in the way of weighing', async () => {
  const page = await open(browser, boat, '/check');
  await page.getByText('Before you weigh: 2 to look at, 2 not ticked.').waitFor();
  await page.getByLabel('Fenders and lines clear').check();
  await page.getByText('Before you weigh: 2 to look at, 1 not ticked.').waitFor();
  await page.getByRole('button', { name: 'Log this check: 1 of 2 ticked' }).click();
  await expect.poll(() => boat.commands).toContain('POST /check {"ticked":["Fenders and lines clear"]}');
  await page.getByRole('button', { name: 'Start to weigh' }).click();
  await page.getByText('Weighing has begun.').waitFor();
  expectNoFaults(page);
});

test('the crew’s own list: a line an item, blank lines left out', async () => {
  const page = await open(browser, boat, '/check');
  await page.locator('summary', { hasText: 'Change the list' }).click();
  await page.getByLabel('One item on each line').fill('Dinghy aboard\n\n  Kettle off \n');
  await page.getByRole('button', { name: 'Keep this list' }).click();
  await expect
    .poll(() => boat.commands)
    .toContain('PUT /check/items {"items":["Dinghy aboard","Kettle off"]}');
});

test('a page that has lost the boat calls nothing good', async () => {
  const page = await open(browser, boat, '/check');
  await page.locator('.conditions li.good').waitFor();
  boat.hush();
  await page.locator('.link-banner').waitFor();
  expect(await page.locator('.conditions li').count()).toBe(0);
  expect(await textOf(page.locator('.departure'))).not.toMatch(/Nothing speaks against/);
});
