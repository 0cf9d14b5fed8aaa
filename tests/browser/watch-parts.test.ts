import { describe, expect, test } from 'vitest';
import type { State } from '../../shared/state.ts';
import { hoursOf } from '../../web/parts/lying/hours.ts';
import { expectNoFaults, open, PHONE, SIDEWAYS, SMALL, textOf } from './browser.ts';
import { ESTIMATED, MARK, nightUntil, outsideCircle, strongWind } from './fakeState.ts';
import { findings, misfits } from './looks.ts';
import { boat, browser, useFakeBoat } from './stage.ts';

// The watch page below its figures, the bar of pages, and several alerts at once.

useFakeBoat();

const seconds = () => Date.now() / 1000;

/** All that the parts can show: reach in this wind, the tide, an estimated anchor, an offer. */
function lying(state: State, at: number): void {
  const { watch } = state;
  watch.cable = { reach: { value: 34.5, sigma: 1.6 }, state: 'fair', certainty: 0.8 };
  watch.lie = { to: 'wind', divergence: 80 };
  watch.anchor = { ...ESTIMATED, lat: MARK.lat + 4 / 111_200, lon: MARK.lon, bearing: 0 };
  watch.offer = { ...MARK, moved: 4.2, bearing: 210, sigma: 1.4 };
  state.tide = {
    from: 'table',
    by: 'bunk',
    curve: { from: at, step: 600, heights: [1, 1] },
    turns: [],
    least: { at: at + 7200, depth: 3.9, underKeel: 2 },
  };
}

describe('below the figures', () => {
  test('side view, dial and strip say in words what they draw, in both palettes without a fault of axe', async () => {
    boat.script(lying);
    boat.remember((at) => nightUntil(at, 6));
    const page = await open(browser, boat, '/', { reducedMotion: 'reduce' });
    const side = page.locator('.side-now');
    await side
      .getByRole('img', { name: /^Side view to scale: 38\sm of cable in 5\.7\sm of water/ })
      .waitFor();
    expect(await textOf(side)).toMatch(/Band: where the cable holds her in this wind, 35\sm \(±\s4\sm\)/);
    expect(await textOf(side)).toMatch(/Dashed: low water at \d\d:\d\d/);
    expect(await side.locator('svg').textContent()).toMatch(/2\.0\sm under the keel at low water/);
    const dial = await textOf(page.locator('.dial'));
    expect(dial).toMatch(/from 21\d° to 24\d°/);
    expect(dial).toMatch(/Bow\s+swings \d+° about 2\d\d°/);
    expect(dial).toContain('They push 80° apart.');
    expect(dial).toContain('She lies to the wind.');
    expect(await textOf(page.locator('.strip-chart figcaption'))).toMatch(
      /^Last 6\sh: farthest 33\sm from the mark at \d\d:\d\d; chance that the anchor moved at most 1\s%; wind 10\skn to 17\skn\.$/,
    );
    expect(await findings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Change to the day palette' }).click();
    expect(await findings(page)).toEqual([]);
    expectNoFaults(page);
  });

  test('without depth, wind or a word from the boat there is no drawing that looks right', async () => {
    boat.script(lying);
    const page = await open(browser, boat);
    await page.locator('.side-now svg').waitFor();
    boat.script((state, at) => {
      lying(state, at);
      state.watch.distance = { value: 80, sigma: 4 };
    });
    await page
      .getByText(/No side view: she lies 4\d\sm farther from the mark than this cable reaches/)
      .waitFor();
    boat.lose('depth');
    await page.getByText('No side view: the depth below the surface is not known now.').waitFor();
    expect(await page.locator('.side-now svg').count()).toBe(0);
    await page.getByText('Filled once a minute while the anchor is watched.').waitFor();
  });

  test('what comes late moves nothing that is above it', async () => {
    boat.script(lying);
    const page = await open(browser, boat, '/', { viewport: PHONE });
    await page.locator('.panels .panel').first().waitFor();
    const shift = await page.evaluate(
      () =>
        new Promise<number>((resolve) => {
          let sum = 0;
          new PerformanceObserver((list) => {
            for (const entry of list.getEntries()) sum += (entry as unknown as { value: number }).value;
          }).observe({ type: 'layout-shift', buffered: true });
          setTimeout(() => resolve(sum), 300);
        }),
    );
    expect(shift).toBeLessThan(0.1);
  });
});

describe('the estimated anchor', () => {
  test('is an ellipse as the boat tells it, apart from the mark, with the way between them', async () => {
    boat.script((state, at) => {
      lying(state, at);
      state.watch.anchor = {
        ...state.watch.anchor!,
        lat: MARK.lat + 20 / 111_200,
        ellipse: { major: 5, minor: 2.5, bearing: 30 },
      };
    });
    const page = await open(browser, boat);
    const ellipse = page.locator('.estimated-anchor');
    await ellipse.waitFor();
    const [rx, ry, turned] = await ellipse.evaluate((drawn) => [
      Number(drawn.getAttribute('rx')),
      Number(drawn.getAttribute('ry')),
      drawn.getAttribute('transform'),
    ]);
    expect(Number(ry) / Number(rx)).toBeCloseTo(2, 5);
    expect(turned).toMatch(/rotate\(30\)/);
    expect(await page.locator('.anchor-way').count()).toBe(1);
  });
});

describe('the mark', () => {
  test('is moved to where the anchor dug in when a person says so; "not now" is kept', async () => {
    boat.script(lying);
    const page = await open(browser, boat);
    const offer = page.getByRole('region', { name: 'Offer to move the mark' });
    await offer.getByText(/dug in 4\sm \(± 3\sm\) to 210° of its mark/).waitFor();
    await offer.getByRole('button', { name: 'Not now' }).click();
    await offer.waitFor({ state: 'detached' });
    expect(boat.commands).toEqual([]);
    boat.script((state, at) => {
      lying(state, at);
      state.watch.offer!.moved = 6.5;
    });
    await offer.getByRole('button', { name: 'Move the mark there' }).click();
    await expect.poll(() => boat.commands).toEqual(['POST /mark {"setBack":true}']);
  });

  test('is found from the track: how well, or why not, in the boat’s words', async () => {
    boat.script((state) => {
      delete state.watch.mark;
    });
    const page = await open(browser, boat);
    await page.locator('.panel summary', { hasText: 'Mark' }).click();
    boat.refuse('The track is too short: 20 m.');
    const find = page.getByRole('button', { name: 'Find it from the track' });
    await find.click();
    await page.getByRole('status').getByText('The track is too short: 20 m.').waitFor();
    boat.refuse(undefined);
    await find.click();
    await page.getByText(/Found and set; known to ± 6\sm\./).waitFor();
    expect(boat.commands).toContain('POST /mark {"fromTrack":true}');
  });
});

describe('several alerts at once', () => {
  const three = (state: State) => {
    const at = seconds() - 60;
    state.alerts = [
      { ...outsideCircle(at), text: 'The roller is 46.3 m from the mark; the circle is 42.0 m.' },
      {
        ...outsideCircle(at),
        id: 'drag.1',
        kind: 'drag',
        value: 9,
        limit: 5,
        text: 'The anchor has moved 9 m.',
      },
      { ...strongWind(at), priority: 'alarm' },
    ];
  };

  test.each([
    ['a phone', PHONE, 0.9],
    ['a small phone', SMALL, 0.5],
    ['a phone on its side', SIDEWAYS, 0.5],
  ] as const)(
    'on %s leave figure and plan in view, and acknowledge big and apart',
    async (_name, viewport, seen) => {
      boat.script(three);
      const page = await open(browser, boat, '/', { viewport, reducedMotion: 'reduce' });
      await page.locator('.plan svg').waitFor();
      const visible = (selector: string) =>
        page.locator(selector).evaluate((element) => {
          const { top, bottom } = element.getBoundingClientRect();
          const scroll = document.querySelector('.scroll')!.getBoundingClientRect();
          return (Math.min(bottom, scroll.bottom) - Math.max(top, scroll.top)) / (bottom - top);
        });
      expect(await visible('.dominant')).toBe(1);
      expect(await visible('.plan')).toBeGreaterThan(seen);
      const box = async (name: string) =>
        (await page.getByRole('button', { name, exact: true }).boundingBox())!;
      const [yes, quiet] = [await box('Acknowledge'), await box('Silence 30 s')];
      expect(yes.height).toBeGreaterThanOrEqual(64);
      expect(yes.x - (quiet.x + quiet.width)).toBeGreaterThanOrEqual(24);
      expect(yes.y + yes.height).toBeLessThanOrEqual(viewport.height);
      expect(await misfits(page)).toEqual([]);
    },
  );

  test('those that are over or acknowledged wait behind one line', async () => {
    boat.script((state) => {
      three(state);
      for (const alert of state.alerts.slice(1)) alert.state = 'active-acknowledged';
      state.alerts.push({
        ...strongWind(1),
        id: 'wind-shift.1',
        kind: 'wind-shift',
        state: 'active-acknowledged',
      });
      state.alerts.push({ ...strongWind(1), id: 'deep.1', kind: 'deep', state: 'active-acknowledged' });
    });
    const page = await open(browser, boat);
    await page.getByRole('button', { name: /^2 more/ }).click();
    expect(await page.locator('.alert').count()).toBe(5);
    await page.getByRole('button', { name: 'Show fewer' }).click();
    expect(await page.locator('.alert').count()).toBe(3);
  });
});

describe('the bar of pages', () => {
  const bar = 'navigation';

  test('leads by thumb or keyboard, says where one is, and offers the helm while she is weighed', async () => {
    const page = await open(browser, boat);
    const pagesBar = page.getByRole(bar, { name: 'Pages', exact: true });
    expect(await pagesBar.getByRole('link', { name: 'Watch' }).getAttribute('aria-current')).toBe('page');
    await pagesBar.getByRole('link', { name: 'Tide' }).click();
    await expect.poll(() => new URL(page.url()).pathname).toBe('/tide');
    expect(await pagesBar.getByRole('link', { name: 'Helm' }).count()).toBe(0);
    await pagesBar.getByRole('button', { name: /More/ }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole(bar, { name: 'All pages' }).getByRole('link', { name: 'Instruments' }).waitFor();
    await page.keyboard.press('Escape');
    await page.locator('.drawer').waitFor({ state: 'detached' });
    boat.script((state) => {
      state.watch.phase = 'weighing';
    });
    await pagesBar.getByRole('link', { name: 'Helm' }).waitFor();
    expect(await pagesBar.getByRole('link', { name: 'Check' }).count()).toBe(0);
    expectNoFaults(page);
  });

  test.each([
    ['at the lower edge', PHONE],
    ['at the lower edge of a small phone', SMALL],
    ['at the left', SIDEWAYS],
  ] as const)('stays %s, whatever comes', async (_where, viewport) => {
    const page = await open(browser, boat, '/', { viewport, reducedMotion: 'reduce' });
    const place = () => page.locator('.page-bar').boundingBox();
    await page.locator('.report').waitFor();
    const before = await place();
    boat.script((state) => {
      state.alerts = [outsideCircle(seconds())];
    });
    await page.locator('.alert').waitFor();
    expect(await place()).toEqual(before);
    await page.getByRole('button', { name: /pages and settings/ }).click();
    await page.locator('.drawer').waitFor();
    expect(await place()).toEqual(before);
    expect(await misfits(page)).toEqual([]);
  });
});

describe('the strip’s columns', () => {
  const point = (at: number, distance: number, wind?: number) => ({
    lat: 0,
    lon: 0,
    at,
    ...(wind !== undefined && { wind }),
    lie: { distance, reach: 40, moved: 0, probability: 0.01 },
  });

  test('keep the farthest, and the least and most wind between them', () => {
    const points = [
      point(0, 30, 5),
      { lat: 0, lon: 0, at: 20, wind: 9 },
      { lat: 0, lon: 0, at: 40, wind: 3 },
      point(60, 33, 6),
      point(7200, 31),
    ];
    const { from, to, columns } = hoursOf(points)!;
    expect([from, to]).toEqual([0, 7200]);
    expect(columns[1]).toMatchObject({ distance: 33, wind: { least: 3, most: 9 } });
    expect(columns.at(-1)).not.toHaveProperty('wind');
  });

  test('of twelve hours at most, and none before anything was told', () => {
    const night = Array.from({ length: 24 * 60 }, (_, i) => point(i * 60, 30, 5));
    const { from, to, columns } = hoursOf(night)!;
    expect(to - from).toBe(12 * 3600);
    expect(columns.length).toBeLessThanOrEqual(145);
    expect(hoursOf([{ lat: 0, lon: 0, at: 5 }])).toBeUndefined();
  });
});
