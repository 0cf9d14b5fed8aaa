import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { ConfigTold } from '../../shared/config.ts';
import { setupWords as words } from '../../web/words/setup.ts';
import { DESK, expectNoFaults, open, SMALL } from './browser.ts';
import { findings, misfits } from './looks.ts';
import { boat, browser, useFakeBoat } from './stage.ts';

useFakeBoat();

const told = (more: Partial<ConfigTold> = {}): ConfigTold => ({
  file: '/home/boat/hawse.yaml',
  fields: [
    { key: 'boat.length', value: 12.192, written: '40 ft' },
    { key: 'boat.beam', value: 4.064 },
    { key: 'boat.draft', value: 1.9, written: '1.9' },
    { key: 'boat.antenna.aftOfRoller', value: 3, written: '3' },
    { key: 'boat.antenna.toStarboard', value: 0 },
    { key: 'cable.size', value: 0.01, written: '10 mm' },
    { key: 'cable.massPerMetre', value: 2.25 },
  ],
  instruments: [{ id: 'udp1', says: 'udp 10110' }],
  waiting: [],
  fitting: {
    antennaAft: { told: 3, estimate: { value: 9.6, sigma: 1.6 }, offer: 9.5 },
    sounder: { unknown: 'The sounder sends no offset of its own to compare with.' },
    deviation: {
      sectors: [{ heading: 45, left: { value: -6.3, sigma: 1.1 }, seconds: 90 }],
      unknown: 'Some courses are missing.',
    },
  },
  ...more,
});

/** Answers the page as the daemon would; gathers what is sent. */
async function answered(page: Page, config: ConfigTold): Promise<unknown[]> {
  const sent: unknown[] = [];
  await page.route('**/api/v1/config', (route) => {
    if (route.request().method() === 'GET') return route.fulfill({ json: config });
    const body = route.request().postDataJSON();
    sent.push(body);
    const changes = [
      { key: 'boat.antenna.aftOfRoller', from: '3', to: '9.5 m', does: 'The roller moves.', when: 'at-once' },
      { key: 'server.port', from: '8274', to: '9000', does: 'The server is set up anew.', when: 'restart' },
    ];
    return route.fulfill({ json: { done: !body.try, changes, config } });
  });
  await page.reload();
  return sent;
}

test('what is heard and what is missing; a figure is offered, shown in the drawing, tried, and written only then', async () => {
  const page = await open(browser, boat, '/setup', { viewport: SMALL });
  const sent = await answered(page, told());
  boat.lose('heading');
  await page.locator('.report', { hasText: /heading/ }).waitFor();
  await page.getByText(words.duty.heading.without).waitFor();

  const antenna = page.getByLabel(words.fields['boat.antenna.aftOfRoller'].label);
  await antenna.waitFor();
  const strong = page.locator('.setup-drawing .strong');
  await page.getByRole('button', { name: words.take('9.5\u00a0m') }).click();
  expect(await antenna.inputValue()).toBe('9.5 m');
  await antenna.focus();
  await strong.waitFor();
  expect(await strong.textContent()).toBe('9.5 m');
  const wide = (await strong.boundingBox())!.width;
  await antenna.fill('4,5');
  await expect.poll(async () => (await strong.boundingBox())!.width).toBeLessThan(wide * 0.7);
  expect(sent).toEqual([]);

  // From above, where it is to be seen; to port is downwards, since the bow points to the left.
  await page.getByLabel(words.fields['boat.antenna.toStarboard'].label).focus();
  await page.locator('.setup-drawing', { hasText: words.above }).waitFor();
  await page.getByLabel(words.chain).selectOption('8');

  await page.getByRole('button', { name: words.see }).click();
  await page.locator('.changes', { hasText: 'The roller moves.' }).waitFor();
  await page.locator('.changes .when', { hasText: words.times.restart }).waitFor();
  const set = { 'boat.antenna.aftOfRoller': '4.5', 'cable.size': '8 mm' };
  expect(sent).toEqual([{ set, try: true }]);
  for (const palette of ['night', 'day']) {
    await page.evaluate((name) => document.documentElement.setAttribute('data-palette', name), palette);
    expect(await findings(page)).toEqual([]);
    expect(await misfits(page)).toEqual([]);
  }
  await page.getByRole('button', { name: words.write }).click();
  await page.getByText(words.written).waitFor();
  expect(sent.at(-1)).toEqual({ set });
  expect(await antenna.inputValue()).toBe('3');
  expectNoFaults(page);
});

test('without a file the figures are seen, the reason is told, and nothing can be typed', async () => {
  const page = await open(browser, boat, '/setup', { viewport: DESK });
  await answered(page, told({ why: 'This is a rehearsal: there is no hawse.yaml.' }));
  await page.getByText(/there is no hawse\.yaml/).waitFor();
  const draft = page.getByLabel(words.fields['boat.draft'].label);
  expect(await draft.isEditable()).toBe(false);
  await draft.focus();
  await page.locator('.setup-drawing .strong').waitFor();
  expect(await page.getByLabel(words.chain).isDisabled()).toBe(true);
  expect(await page.getByRole('button', { name: words.take('9.5\u00a0m') }).isDisabled()).toBe(true);
  expect(await misfits(page)).toEqual([]);
  expectNoFaults(page);
});
