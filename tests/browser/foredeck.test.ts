import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import type { State } from '../../shared/state.ts';
import { expectNoFaults, open, PHONE, SIDEWAYS, stopClock, textOf } from './browser.ts';
import { phoneView } from './fakeState.ts';
import { findings } from './looks.ts';
import { boat, browser, useFakeBoat } from './stage.ts';

useFakeBoat(weighing);

const SINCE = Date.now() / 1000 - 200;

function weighing(state: State, at: number): void {
  state.watch.phase = 'weighing';
  state.cable.marks = [
    { at: 10, what: 'red' },
    { at: 20, what: 'yellow' },
    { at: 30, what: 'two blue' },
  ];
  state.weigh = {
    since: SINCE,
    out: { value: 17.6, sigma: 1, from: 'counted' },
    stay: { name: 'short', certainty: 0.9, from: 'cable' },
    cable: { state: 'taut', certainty: 0.8 },
    lead: { angle: 28, sigma: 10, clock: 1, name: 'on-the-bow', from: 'compass', limit: 65 },
  };
  state.pages = [phoneView({ id: 'page1', name: 'cockpit tablet', page: 'weigh', lastAt: at })];
}

const seen = async () => ({ status: 200, body: { number: 1, seenBy: 'cockpit tablet' } });
const notShown = async () => ({
  status: 504,
  body: { type: 'urn:hawse:problem:not-shown', detail: 'The helm has not seen it.' },
});

const foredeck = async (options = {}): Promise<Page> => {
  const page = await open(browser, boat, '/foredeck', { hasTouch: true, ...options });
  await page.locator('.compass').waitFor();
  return page;
};
const target = (page: Page, signal: string) => page.locator(`[data-signal="${signal}"]`);
const signals = () => boat.commands.filter((command) => command.startsWith('POST /signals'));

describe('foredeck page', () => {
  test.each([
    ['390 × 844', PHONE],
    ['360 × 640', { width: 360, height: 640 }],
    ['844 × 390', SIDEWAYS],
  ])(
    'at %s everything is in sight, at least 64 px and 12 px apart, and nothing scrolls',
    async (_size, viewport) => {
      const page = await foredeck({ viewport });
      const found = await page.evaluate(() => {
        const wrong: string[] = [];
        const boxes = [...document.querySelectorAll<HTMLElement>('.foredeck button')].map((element) => ({
          name: element.textContent?.trim() ?? '',
          round: getComputedStyle(element).borderRadius === '50%',
          box: element.getBoundingClientRect(),
        }));
        for (const { name, box } of boxes) {
          if (box.width < 63.9 || box.height < 63.9) wrong.push(`${name} is ${box.width} × ${box.height}`);
          const inside =
            box.left >= 0 && box.top >= 0 && box.right <= innerWidth && box.bottom <= innerHeight;
          if (!inside) wrong.push(`${name} is not in sight`);
        }
        boxes.forEach((a, i) => {
          for (const b of boxes.slice(i + 1)) {
            // Between two round targets the gap is from edge to edge along the line of their middles.
            const dx = Math.max(a.box.left - b.box.right, b.box.left - a.box.right);
            const dy = Math.max(a.box.top - b.box.bottom, b.box.top - a.box.bottom);
            const middles = Math.hypot(
              a.box.left + a.box.width / 2 - b.box.left - b.box.width / 2,
              a.box.top + a.box.height / 2 - b.box.top - b.box.height / 2,
            );
            const gap =
              a.round && b.round
                ? middles - (a.box.width + b.box.width) / 2
                : Math.hypot(Math.max(0, dx), Math.max(0, dy));
            if (gap < 11.7) wrong.push(`${a.name} and ${b.name} are ${gap.toFixed(1)} px apart`);
          }
        });
        for (const element of [document.documentElement, ...document.querySelectorAll('.whole, .foredeck')])
          if (
            element.scrollHeight > element.clientHeight + 1 ||
            element.scrollWidth > element.clientWidth + 1
          )
            wrong.push(`${element.className || 'the page'} scrolls`);
        for (const span of document.querySelectorAll('.foredeck button > span')) {
          const { left, right } = span.getBoundingClientRect();
          const outer = span.parentElement!.getBoundingClientRect();
          if (left < outer.left + 1 || right > outer.right - 1) wrong.push(`${span.textContent} is cut off`);
        }
        return { wrong, count: boxes.length };
      });
      expect(found.wrong).toEqual([]);
      expect(found.count).toBe(21);
      expectNoFaults(page);
    },
  );

  test.each(['light', 'dark'] as const)(
    'axe finds nothing, in the %s palette, with signals seen and missed',
    async (colorScheme) => {
      const page = await foredeck({ colorScheme });
      expect(await findings(page)).toEqual([]);
      boat.helm(seen);
      await target(page, 'heaving').tap();
      await page.locator('[data-signal="heaving"].seen').waitFor();
      boat.helm(notShown);
      await target(page, 'stop').tap();
      await page.locator('[data-signal="stop"].missed').waitFor();
      expect(await findings(page)).toEqual([]);
    },
  );

  test('tells at a glance the cable, how much is out, the stay, the caution, and who sees at the helm', async () => {
    const page = await foredeck();
    expect(await textOf(page.locator('.cable-now'))).toMatch(/18\s*m out\s+SHORT STAY\s+CABLE TAUT/);
    expect(await textOf(page.locator('.caution'))).toBe(
      'Never pull the boat with the windlass. Hands, feet, hair, clothing clear.',
    );
    expect(await textOf(page.locator('.helm-link'))).toMatch(/Helm sees\s+cockpit tablet/);
    expect(await target(page, 'lead:1').getAttribute('class')).toContain('reckoned');
    boat.script((state, at) => {
      weighing(state, at);
      state.pages = [];
    });
    await page.locator('.helm-link.none', { hasText: 'NO HELM' }).waitFor();
    boat.script((state, at) => {
      weighing(state, at);
      state.pages[0]!.visible = false;
    });
    await page.locator('.helm-link.hidden', { hasText: 'cockpit tablet' }).waitFor();
  });

  test('each signal is on its way, then seen by name and after how long; or not, with the reason, and can be given again', async () => {
    let release = () => {};
    boat.helm(async () => {
      await new Promise<void>((resolve) => {
        release = resolve;
      });
      return seen();
    });
    const page = await foredeck();
    await target(page, 'heaving').tap();
    await page.locator('[data-signal="heaving"].sending').waitFor();
    await page.getByText(/^Heaving: sending, \d/).waitFor();
    release();
    await page.locator('[data-signal="heaving"].seen').waitFor();
    await page.getByText(/^Heaving: seen, cockpit tablet, after \d+\.\d\ss$/).waitFor();
    boat.helm(notShown);
    await target(page, 'lead:11').tap();
    await page
      .getByText('Lead 11 o’clock NOT SEEN: cockpit tablet has not shown it. Tap again, or use your hands.')
      .waitFor();
    expect(await page.locator('[data-signal="lead:11"].missed').count()).toBe(1);
    boat.helm(seen);
    await target(page, 'lead:11').tap();
    await page.locator('[data-signal="lead:11"].seen').waitFor();
    expect(await page.locator('.missed').count()).toBe(0);
    boat.helm(async () => undefined);
    await target(page, 'snubbed').tap();
    await page
      .getByText('Snubbed NOT SEEN: no answer from the boat. Tap again, or use your hands.')
      .waitFor();
    // Chromium by itself asks again when a connection breaks off: the last may have come several times.
    expect(signals().slice(0, 4)).toEqual(
      ['heaving', 'lead:11', 'lead:11', 'snubbed'].map((signal) => `POST /signals {"signal":"${signal}"}`),
    );
    expectNoFaults(page);
  });

  test('STOP goes when the finger comes down, and again until it is seen; then no more', async () => {
    boat.helm(notShown);
    const page = await foredeck();
    await stopClock(page);
    await target(page, 'stop').dispatchEvent('pointerdown');
    await page.locator('[data-signal="stop"].missed').waitFor();
    expect(signals()).toHaveLength(1);
    await page.clock.runFor(1000);
    await expect.poll(() => signals().length).toBe(2);
    boat.helm(seen);
    await page.clock.runFor(1000);
    await page.locator('[data-signal="stop"].seen').waitFor();
    await page.clock.runFor(3000);
    await target(page, 'heaving').tap();
    await expect
      .poll(signals)
      .toEqual(['stop', 'stop', 'stop', 'heaving'].map((word) => `POST /signals {"signal":"${word}"}`));
  });

  test('one tap on STOP is one STOP; another engine signal takes its place and ends the repeating', async () => {
    boat.helm(seen);
    const page = await foredeck();
    await stopClock(page);
    await target(page, 'stop').tap();
    await page.locator('[data-signal="stop"].seen').waitFor();
    await page.clock.runFor(2000);
    await target(page, 'heaving').tap();
    await page.locator('[data-signal="heaving"].seen').waitFor();
    expect(signals()).toEqual(['stop', 'heaving'].map((word) => `POST /signals {"signal":"${word}"}`));
    boat.helm(notShown);
    await target(page, 'stop').tap();
    await page.locator('[data-signal="stop"].missed').waitFor();
    await target(page, 'ahead').tap();
    await page.locator('[data-signal="ahead"].missed').waitFor();
    const stops = () => signals().filter((signal) => signal.includes('stop')).length;
    const before = stops();
    await page.clock.runFor(3000);
    await target(page, 'astern').tap();
    await page.locator('[data-signal="astern"].missed').waitFor();
    expect(stops()).toBe(before);
  });

  test('a brief touch never says aweigh; a held one does, and only then the mark can be closed, by another hold', async () => {
    const page = await foredeck();
    await stopClock(page);
    const aweigh = page.locator('.guarded button');
    await aweigh.dispatchEvent('pointerdown');
    await page.clock.runFor(900);
    await aweigh.dispatchEvent('pointerup');
    await page.clock.runFor(2000);
    await aweigh.dispatchEvent('pointerdown');
    await page.clock.runFor(900);
    expect(signals()).toEqual([]);
    await page.clock.runFor(100);
    await expect.poll(signals).toEqual(['POST /signals {"signal":"aweigh"}']);
    await aweigh.dispatchEvent('pointerup');
    await page.clock.resume();
    boat.script((state, at) => {
      weighing(state, at);
      state.weigh!.brokenOut = { at, from: 'foredeck' };
    });
    await page.locator('.guarded', { hasText: 'Close the mark' }).waitFor();
    await aweigh.dispatchEvent('pointerdown');
    await expect.poll(() => boat.commands.at(-1)).toMatch(/^POST \/weigh\/aweigh/);
  });

  test('cable out: steps wait for the hand to rest, the two marks near the length go at once', async () => {
    const page = await foredeck();
    for (let i = 0; i < 3; i++) await page.getByRole('button', { name: 'Cable out −1' }).tap();
    await page.locator('.length.pending', { hasText: /15\s*m/ }).waitFor();
    await expect.poll(signals).toEqual(['POST /signals {"signal":"out:15"}']);
    await page.locator('.chain-mark', { hasText: 'red' }).tap();
    await expect.poll(() => signals().at(-1)).toBe('POST /signals {"signal":"out:10"}');
    expect(await textOf(page.locator('.chain-mark').nth(1))).toMatch(/yellow\s*20\s*m/);
    boat.script((state, at) => {
      weighing(state, at);
      delete state.cable.marks;
    });
    await page.getByRole('button', { name: 'Cable out −5' }).waitFor();
  });

  test('says loudly that the link is lost, and takes the boat’s figures away', async () => {
    const page = await foredeck();
    boat.hush();
    await page.locator('.told-now.loud', { hasText: /^NO LINK to the boat for \d+/ }).waitFor();
    expect(await textOf(page.locator('.helm-link'))).toMatch(/NO LINK/);
    expect(await textOf(page.locator('.cable-now'))).not.toMatch(/\d/);
    boat.speak();
    await page.locator('.helm-link.sees').waitFor();
  });

  test('an alert of the boat stands in the place of the caution; nobody weighing is said, with the way to begin', async () => {
    const page = await foredeck();
    boat.script((state, at) => {
      weighing(state, at);
      state.alerts = [
        {
          id: 'cable-taut.1',
          kind: 'cable-taut',
          priority: 'warning',
          state: 'active-unacknowledged',
          text: 'Cable is taut: stop heaving.',
          since: at,
          stateSince: at,
        },
      ];
    });
    await page.locator('.pressing', { hasText: 'Warning: Cable is taut: stop heaving.' }).waitFor();
    boat.script(() => {});
    await page.getByText('Nobody has started to weigh: signals would reach nobody.').waitFor();
    await page.getByRole('button', { name: 'Start to weigh' }).tap();
    await page.locator('.compass').waitFor();
    expect(boat.commands.at(-1)).toMatch(/^POST \/weigh/);
    expectNoFaults(page);
  });
});
