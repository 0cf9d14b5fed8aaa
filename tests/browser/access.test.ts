import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { expectNoFaults, open, SCREENS } from './browser.ts';
import { ESTIMATED, outsideCircle, slowClock, strongWind } from './fakeState.ts';
import { findings, misfits } from './looks.ts';
import { boat, browser, useFakeBoat } from './stage.ts';

useFakeBoat();

/** Each state of the pages that a person can meet, and how it comes about. */
const SCENES: Record<string, { path?: string; prepare?: () => void; act?: (page: Page) => Promise<void> }> = {
  calm: {},
  'every alert': {
    prepare: () =>
      boat.script((state, at) => {
        state.alerts = [
          outsideCircle(at),
          strongWind(at),
          slowClock(at),
          {
            ...outsideCircle(at),
            id: 'drag.1',
            kind: 'drag',
            state: 'active-acknowledged',
            acknowledgedBy: 'phone',
            acknowledgedAt: at,
          },
          { ...strongWind(at), id: 'wind-shift.1', kind: 'wind-shift', state: 'rectified-unacknowledged' },
        ];
      }),
  },
  'estimates and stale figures': {
    prepare: () => {
      boat.script((state) => {
        state.watch.cable = { reach: { value: 36, sigma: 1.5 }, state: 'fair', certainty: 0.8 };
        state.watch.anchor = { ...ESTIMATED, lat: -16.49996, lon: 179.99994 };
        state.watch.lie = {
          stream: { set: { value: 310, sigma: 20 }, drift: { value: 0.5, sigma: 0.2 }, from: 'sheer' },
        };
      });
      boat.lose('depth', 'stream');
    },
  },
  'no mark': {
    prepare: () =>
      boat.script((state) => {
        delete state.watch.mark;
      }),
  },
  'link lost': {
    act: async (page) => {
      boat.hush();
      await page.locator('.link-banner').waitFor();
    },
  },
  'menu and panels open': {
    act: async (page) => {
      await page.locator('.panels .panel').nth(3).waitFor();
      for (const summary of await page.locator('summary').all()) await summary.click();
      await page.getByRole('button', { name: 'Pages and settings' }).click();
    },
  },
  instruments: { path: '/instruments' },
};

describe.each(['day', 'night'] as const)('in the %s palette', (palette) => {
  test.each(Object.entries(SCENES))('axe finds no fault: %s', async (_name, { path, prepare, act }) => {
    prepare?.();
    const page = await open(browser, boat, path, {
      colorScheme: palette === 'day' ? 'light' : 'dark',
      reducedMotion: 'reduce',
    });
    await page.locator('.report').waitFor();
    await page.locator('.grid, .input').first().waitFor();
    await act?.(page);
    expect(await findings(page)).toEqual([]);
    expectNoFaults(page);
  });
});

describe('on every screen', () => {
  test.each(Object.entries(SCREENS))(
    'nothing is wider than %s, cut off or too small to hit',
    async (_name, viewport) => {
      SCENES['every alert']!.prepare!();
      const page = await open(browser, boat, '/', { viewport, reducedMotion: 'reduce' });
      await page.locator('.alert').first().waitFor();
      await page.locator('.plan .hull').waitFor();
      const before = await misfits(page);
      await SCENES['menu and panels open']!.act!(page);
      const opened = await misfits(page);
      await page.getByRole('link', { name: 'Instruments' }).click();
      await page.locator('.input').first().waitFor();
      expect({ before, opened, instruments: await misfits(page) }).toEqual({
        before: [],
        opened: [],
        instruments: [],
      });
    },
  );

  test('everything can be done by keyboard, and the focus can be seen', async () => {
    boat.script((state) => {
      state.alerts = [outsideCircle(1)];
    });
    const page = await open(browser, boat, '/', { reducedMotion: 'reduce' });
    await page.locator('.alert').waitFor();
    const acknowledge = page.getByRole('button', { name: 'Acknowledge', exact: true });
    for (let i = 0; i < 40 && !(await acknowledge.evaluate((it) => it === document.activeElement)); i++)
      await page.keyboard.press('Tab');
    expect(await acknowledge.evaluate((it) => getComputedStyle(it).outlineStyle)).toBe('solid');
    await page.keyboard.press('Enter');
    await expect.poll(() => boat.commands).toEqual(['POST /alerts/outside-circle.1/acknowledge']);
  });
});
