import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { expectNoFaults, open, textOf } from './browser.ts';
import { ESTIMATED, phoneView } from './fakeState.ts';
import { boat, browser, useFakeBoat } from './stage.ts';

useFakeBoat();

const cell = (page: Page, label: string) => page.locator('.cell', { hasText: label });

describe('the watch page', () => {
  test('shows the sentence, the dominant figure and the grid, each with its unit', async () => {
    boat.script((state) => {
      state.watch.distance = { value: 31.4, sigma: 1.9 };
      state.watch.bearing = 7.4;
      state.watch.lead = -22.6;
      state.report = 'Watching. 31 m to the anchor.';
    });
    const page = await open(browser, boat);
    await page.locator('.report', { hasText: 'Watching. 31 m to the anchor.' }).waitFor();
    expect(await textOf(page.locator('.dominant'))).toMatch(/^31\s*m$/);
    expect(await textOf(page.locator('.distance'))).toMatch(/± 4\sm/);
    // An age grows while this computer is busy and is right again with the boat's next word.
    await expect.poll(() => textOf(page.locator('.distance'))).toMatch(/fix 1\ss old/);
    expect(await textOf(page.locator('.distance'))).toMatch(/11\sm inside the circle/);
    expect(await textOf(cell(page, 'Anchor bears'))).toContain('007°');
    expect(await textOf(cell(page, 'Cable grows'))).toContain('23° on the port bow');
    expect(await textOf(cell(page, 'Depth'))).toMatch(
      /5\.7\s*m\s+below the surface\s+3\.8\sm under the keel/,
    );
    expect(await textOf(cell(page, 'Wind over ground'))).toMatch(/14\s*kn\s+from 230°/);
    expect(await textOf(cell(page, 'Stream'))).toMatch(/1\.1\s*kn\s+setting 310°/);
    expectNoFaults(page);
  });

  test('says on every page that it is simulated, and says nothing of it on a real boat', async () => {
    const page = await open(browser, boat);
    await page.getByText('SIMULATED: Whistling Bight, evening breeze').waitFor();
    await page.getByRole('button', { name: 'Pages and settings' }).click();
    await page.getByRole('link', { name: 'Instruments' }).click();
    await page.getByRole('heading', { name: 'Inputs' }).waitFor();
    expect(await page.getByText('SIMULATED').count()).toBe(1);
    boat.script((state) => delete state.simulated);
    const real = await open(browser, boat);
    await real.locator('.report').waitFor();
    expect(await real.getByText('SIMULATED').count()).toBe(0);
  });

  test('a stale figure vanishes and keeps its age; what was never heard says so', async () => {
    boat.script((state) => {
      delete state.vessel.windApparent;
      delete state.vessel.windGround;
      delete state.vessel.ages.wind;
    });
    const page = await open(browser, boat);
    await cell(page, 'Depth').getByText('5.7').waitFor();
    expect(await textOf(cell(page, 'Wind over ground'))).toMatch(/—\s+never heard/);

    boat.lose('depth', 'position', 'heading');
    await cell(page, 'Depth').getByText('—').waitFor();
    await cell(page, 'Depth')
      .getByText(/[4-9]\ss ago/)
      .waitFor();
    expect(await textOf(cell(page, 'Depth'))).not.toMatch(/5\.7/);
    expect(await textOf(page.locator('.dominant'))).toBe('—');
    expect(await textOf(page.locator('.distance'))).toMatch(/fix \d+\ss old/);
    expect(await textOf(cell(page, 'Cable grows'))).toMatch(/—/);
    expect(await page.locator('.plan .hull').count()).toBe(0);
    expect(await textOf(page.locator('.plan figcaption'))).toMatch(/place unknown/);
    // What was not lost is still there.
    expect(await textOf(cell(page, 'Over ground').last())).toMatch(/kn/);
    expectNoFaults(page);
  });

  test('an age of more than 3 s stands beside a figure that is still shown', async () => {
    boat.script((state) => {
      state.vessel.ages.depth = 5;
    });
    const page = await open(browser, boat);
    await cell(page, 'Depth')
      .getByText(/[5-6]\ss ago/)
      .waitFor();
    expect(await textOf(cell(page, 'Depth'))).toContain('5.7');
    await expect.poll(() => textOf(cell(page, 'Heading'))).not.toContain('ago');
  });

  test('draws hull, mark, circle and track to one scale, across the 180th meridian', async () => {
    boat.script((state) => {
      // 90 m east of a mark that lies 11 m west of the meridian.
      state.vessel.roller!.value = { lat: -16.5, lon: -179.99926 };
      state.vessel.heading!.value = 90;
    });
    const page = await open(browser, boat);
    await page.locator('.plan .hull').waitFor();
    const drawn = await page.evaluate(() => {
      const centre = (selector: string) => {
        const box = document.querySelector(selector)!.getBoundingClientRect();
        return { x: box.x + box.width / 2, y: box.y + box.height / 2, width: box.width, height: box.height };
      };
      const hull = centre('.plan .hull path');
      return { hull, mark: centre('.plan .soft-mark'), circle: centre('.plan .inside-circle') };
    });
    const pixelsInMetre = drawn.circle.width / (2 * 42);
    // The roller is 89.7 m east: the hull hangs at it by the bow, her middle half her length nearer when she heads east.
    const { hull, mark } = drawn;
    expect((hull.x - mark.x) / pixelsInMetre).toBeGreaterThan(80);
    expect((hull.x - mark.x) / pixelsInMetre).toBeLessThan(87);
    expect(Math.abs(hull.y - mark.y) / pixelsInMetre).toBeLessThan(2);
    expect(hull.width / pixelsInMetre).toBeGreaterThan(12);
    expect(hull.width / pixelsInMetre).toBeLessThan(14);
    expect(hull.height / pixelsInMetre).toBeGreaterThan(3.8);
    expect(hull.height / pixelsInMetre).toBeLessThan(5);
    expect(await page.locator('.plan .track path').count()).toBeGreaterThan(0);
    expectNoFaults(page);
  });

  test('a catamaran is drawn as one', async () => {
    boat.script((state) => {
      state.boat = { ...state.boat, hull: 'catamaran', length: 12, beam: 6.8 };
    });
    const page = await open(browser, boat);
    await page.locator('.plan .hull').waitFor();
    expect(await page.locator('.plan .hull path').count()).toBe(4);
  });

  test('estimates are drawn when the boat tells them', async () => {
    const page = await open(browser, boat);
    await page.locator('.plan .hull').waitFor();
    expect(await page.locator('.plan .estimated-anchor, .plan .reach').count()).toBe(0);
    boat.script((state) => {
      state.watch.cable = { reach: { value: 36, sigma: 1.5 }, state: 'taut', certainty: 0.8 };
      state.watch.anchor = { ...ESTIMATED, lat: -16.49996, lon: 179.99994 };
    });
    await page.locator('.plan .estimated-anchor').waitFor();
    expect(await page.locator('.plan .reach').count()).toBeGreaterThan(0);
    expect(await textOf(cell(page, 'Anchor has moved'))).toMatch(
      /6\s*m\s+± 4\sm\s+70\s% that it drags\s+dotted on the plan/,
    );
    expect(await textOf(page.locator('.cell', { hasText: 'reach' }))).toMatch(
      /taut\s+80\s% sure\s+reach 36\sm ± 3\sm/,
    );
  });

  test('units and palette are this screen’s own and are remembered', async () => {
    boat.script((state) => {
      state.watch.distance = { value: 31.4, sigma: 1.9 };
    });
    const page = await open(browser, boat);
    await page.locator('.dominant').waitFor();
    expect(await page.locator('html').getAttribute('data-palette')).toBe('night');
    await page.getByRole('button', { name: 'Change to the day palette' }).click();
    await page.getByRole('button', { name: 'Pages and settings' }).click();
    await page.getByRole('radio', { name: 'ft' }).check();
    await page.getByRole('radio', { name: 'm/s' }).check();
    expect(await textOf(page.locator('.dominant'))).toMatch(/^103\s*ft$/);
    expect(await textOf(cell(page, 'Wind over ground'))).toMatch(/7\.2\s*m\/s/);
    await page.reload();
    await page.locator('.dominant').waitFor();
    expect(await page.locator('html').getAttribute('data-palette')).toBe('day');
    expect(await textOf(page.locator('.dominant'))).toMatch(/^103\s*ft$/);
    expectNoFaults(page);
  });

  test('the dimmer darkens the night, but not an alarm', async () => {
    const page = await open(browser, boat);
    await page.getByRole('button', { name: 'Pages and settings' }).click();
    await page.getByLabel('Brightness at night').fill('40');
    const opacity = () => page.locator('main').evaluate((main) => getComputedStyle(main).opacity);
    expect(await opacity()).toBe('0.4');
    boat.script((state, at) => {
      state.alerts = [
        {
          id: 'drag.1',
          kind: 'drag',
          priority: 'alarm',
          state: 'active-unacknowledged',
          text: 'The anchor drags.',
          since: at,
          stateSince: at,
        },
      ];
    });
    await page.getByRole('button', { name: 'Acknowledge' }).waitFor();
    expect(await opacity()).toBe('1');
  });
});

describe('the instruments page', () => {
  test('shows inputs, what was refused and why, sources with ages, notes and open pages', async () => {
    boat.script((state, at) => {
      state.pages = [
        phoneView({ id: 'page1', name: 'phone by the bunk', armed: true, lastAt: at - 1 }),
        phoneView({
          id: 'page2',
          name: 'old tablet',
          visible: false,
          sound: false,
          silent: true,
          lastAt: at - 50,
        }),
      ];
    });
    const page = await open(browser, boat, '/instruments');
    const input = page.locator('.input', { hasText: 'udp1' });
    await input.getByText('123,456').waitFor();
    expect(await textOf(input)).toMatch(/refused by checksum\s+3\s/);
    expect(await textOf(input)).toContain('the checksum is 4F, the sentence adds up to 4E');
    expect(await textOf(page.locator('.input', { hasText: 'serial1' }))).toContain('DOWN');
    await expect
      .poll(() => textOf(page.locator('.sources div', { hasText: 'Depth' })))
      .toMatch(/udp1:SDDPT\s+1\ss ago/);
    expect(await textOf(page.locator('.sources div', { hasText: 'Speed through water' }))).toMatch(
      /none now\s+never heard/,
    );
    expect(await textOf(page.locator('.notes'))).toContain('heading now from udp1:HEHDT');
    expect(await textOf(page.locator('.open-pages'))).toMatch(
      /phone by the bunk watch · in view · sound runs/,
    );
    await expect
      .poll(() => textOf(page.locator('.open-pages')))
      .toMatch(/old tablet watch · not heard for 5\d\ss/);
    expectNoFaults(page);
  });

  test('this page’s own pulses tell the boat whether it can be heard, and by which name', async () => {
    const page = await open(browser, boat, '/instruments');
    await page.getByRole('heading', { name: 'Inputs' }).waitFor();
    await page.getByRole('button', { name: 'Pages and settings' }).click();
    await page.getByLabel('Name of this screen on the others').fill('chart table');
    await expect
      .poll(() => boat.heard.at(-1))
      .toMatchObject({ type: 'pulse', visible: true, sound: false, name: 'chart table' });
    expect(boat.connections.at(-1)).toContain('page=instruments');
  });
});
