import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { State } from '../../shared/state.ts';
import { expectNoFaults, open, PHONE, SIDEWAYS, stopClock, textOf } from './browser.ts';
import { type FedBoat, startFedBoat } from './fedBoat.ts';
import { findings } from './looks.ts';
import { measured } from './measured.ts';
import { boat, browser, useFakeBoat } from './stage.ts';

useFakeBoat(weighing);

function weighing(state: State, at: number): void {
  state.watch.phase = 'weighing';
  state.vessel.heading!.value = 232;
  state.weigh = {
    since: at - 300,
    lastSignal: { signal: 'heaving', number: 4, at: at - 12, by: 'bow' },
    distance: { value: 28.4, sigma: 2.9 },
    bearing: 250,
    closing: { value: 0.32, sigma: 0.06 },
    lead: { angle: 18, sigma: 8, clock: 1, name: 'on-the-bow', from: 'compass', limit: 65 },
    out: { value: 27, sigma: 1.2, from: 'counted' },
    cable: { state: 'fair', certainty: 0.8 },
    stay: { name: 'long', certainty: 0.95, from: 'cable' },
    taking: { by: 'stream', speed: 0.32, toward: 310 },
    guidance: {
      course: 262,
      turn: 30,
      throughWater: 0.7,
      madeGood: 0.5,
      leeway: -3,
      windAngle: -24,
      closing: 0.45,
      ahead: 0.3,
      engine: 'ahead-gently',
      correction: { most: 14, every: 6 },
      scale: 40,
    },
    report: '28 m to the anchor. Steer 262°; ahead gently.',
  };
}

type Change = (weigh: NonNullable<State['weigh']>, state: State, at: number) => void;
const say = (change: Change): void =>
  boat.script((state, at) => {
    weighing(state, at);
    change(state.weigh!, state, at);
  });
const signal = (word: string, number: number): Change => {
  const at = Date.now() / 1000;
  return (weigh) => {
    weigh.lastSignal = { signal: word, number, at, by: 'bow' };
  };
};
const reported = () => boat.heard.flatMap((message) => (message.type === 'shown' ? [message.signal] : []));

const helm = async (options = {}): Promise<Page> => {
  const page = await open(browser, boat, '/weigh', { hasTouch: true, reducedMotion: 'reduce', ...options });
  await page.locator('.helm').waitFor();
  return page;
};

describe('helm page', () => {
  test.each([
    ['390 × 844', PHONE],
    ['360 × 640', { width: 360, height: 640 }],
    ['844 × 390', SIDEWAYS],
    ['1024 × 768', { width: 1024, height: 768 }],
  ])(
    'at %s nothing scrolls, no target is small, and an alert moves and covers no figure',
    async (_, viewport) => {
      const page = await helm({ viewport });
      const boxes = () =>
        page.evaluate(() =>
          [
            ...document.querySelectorAll<HTMLElement>(
              '.steer, .picture, .cell, .risk, .actions button, .last-signal',
            ),
          ].map((element) => {
            const { left, top, right, bottom } = element.getBoundingClientRect();
            return [left, top, right, bottom].map(Math.round);
          }),
        );
      const calm = await boxes();
      say((weigh, state, at) => {
        Object.assign(weigh, { nearEnd: true, strain: 0.9, held: { angle: -170, deviation: 160 } });
        delete weigh.lead;
        state.alerts = [
          {
            id: 'lead-foul.1',
            kind: 'lead-foul',
            priority: 'warning',
            state: 'active-unacknowledged',
            since: at - 9,
            stateSince: at - 9,
            text: 'The cable leads 78° to starboard, 13° aft of what this hull takes: neutral, and bring the bow round to it.',
          },
        ];
      });
      await page.locator('.risk.asks').waitFor();
      expect(await boxes()).toEqual(calm);
      const wrong = await page.evaluate(() => {
        const found: string[] = [];
        for (const element of [document.documentElement, ...document.querySelectorAll('.whole, .helm')])
          if (
            element.scrollHeight > element.clientHeight + 1 ||
            element.scrollWidth > element.clientWidth + 1
          )
            found.push(`${element.className || 'the page'} scrolls`);
        for (const button of document.querySelectorAll('.helm button')) {
          const { width, height, left, right, top, bottom } = button.getBoundingClientRect();
          if (width < 44 || height < 44) found.push(`${button.textContent} is ${width} × ${height}`);
          if (left < 0 || top < 0 || right > innerWidth || bottom > innerHeight)
            found.push(`${button.textContent} is not in sight`);
        }
        const shapes = [
          ...document.querySelectorAll('.last-signal, .steer, .picture, .cell, .risk, .actions'),
        ];
        shapes.forEach((a, i) => {
          const one = a.getBoundingClientRect();
          for (const b of shapes.slice(i + 1)) {
            const other = b.getBoundingClientRect();
            const across = Math.min(one.right, other.right) - Math.max(one.left, other.left);
            const down = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
            if (across > 1 && down > 1) found.push(`${a.className} and ${b.className} cover each other`);
          }
        });
        return found;
      });
      expect(wrong).toEqual([]);
      expectNoFaults(page);
    },
  );

  test.each(['light', 'dark'] as const)(
    'axe finds nothing in the %s palette, with and without STOP',
    async (colorScheme) => {
      const page = await helm({ colorScheme });
      expect(await findings(page)).toEqual([]);
      say(signal('stop', 5));
      await page.locator('.stop-over').waitFor();
      expect(await findings(page)).toEqual([]);
    },
  );

  test('says where to point by side, word and figure, and in the dead band that she is steady', async () => {
    const page = await helm();
    expect(await textOf(page.locator('.steer.starboard'))).toMatch(/30°\s*STARBOARD\s*steer 262° ± 13°/);
    say((weigh) => {
      weigh.guidance!.turn = -40;
    });
    await page.locator('.steer.port', { hasText: 'PORT' }).waitFor();
    say((weigh) => {
      weigh.guidance!.turn = -9;
    });
    await page.locator('.steer.steady', { hasText: 'STEADY' }).waitFor();
    expectNoFaults(page);
  });

  test('without a heading nothing is counted from the bow, and the page says so', async () => {
    const page = await helm();
    say((weigh, state) => {
      delete state.vessel.heading;
      delete weigh.lead;
      delete weigh.guidance!.turn;
    });
    await page.locator('.steer.unknown', { hasText: /heading not known/ }).waitFor();
    expect(await textOf(page.locator('.helm-plan figcaption'))).toMatch(/north up/);
    expect(await page.locator('.helm-plan .hull, .helm-plan .course, .helm-plan .wind').count()).toBe(0);
    expect(await textOf(page.locator('.cell', { hasText: 'Cable leads' }))).toMatch(/not known/);
  });

  test('figures that stand still go, and so does a link that is silent: loudly, the last signal stays', async () => {
    const page = await helm();
    await page.locator('.cell', { hasText: /28\s*m ± 6/ }).waitFor();
    boat.hush();
    await page.locator('.link-banner', { hasText: 'No word from the boat' }).waitFor();
    expect(await textOf(page.locator('.cell').first())).toMatch(/not known\s+no word/);
    expect(await textOf(page.locator('.last-signal'))).toMatch(/Heaving/);
    const [banner, last] = await Promise.all(
      ['.link-banner', '.last-signal'].map((part) => page.locator(part).boundingBox()),
    );
    expect(banner!.y).toBeGreaterThanOrEqual(last!.y + last!.height - 4);
  });

  test('STOP takes the screen until it is acknowledged or another order comes; a word about the cable lifts it not', async () => {
    const page = await helm();
    say(signal('stop', 5));
    const over = page.locator('.stop-over');
    await over.waitFor();
    expect(await over.boundingBox()).toEqual({ x: 0, y: 0, ...PHONE });
    await expect.poll(reported).toContain(5);
    say(signal('out:20', 6));
    await page.locator('.stop-over', { hasText: /20\sm out/ }).waitFor();
    await expect.poll(reported).toContain(6);
    say(signal('ahead', 7));
    await over.waitFor({ state: 'detached' });
    say(signal('stop', 8));
    await over.waitFor();
    await page.getByRole('button', { name: 'I have stopped' }).tap();
    await over.waitFor({ state: 'detached' });
    await page.locator('.last-signal .line.loud', { hasText: 'STOP' }).waitFor();
    expectNoFaults(page);
  });

  test('a page that is not in view reports nothing until somebody looks', async () => {
    const page = await helm();
    await expect.poll(reported).toContain(4);
    await page.evaluate(() => {
      Object.defineProperty(document, 'visibilityState', { value: 'hidden', configurable: true });
      document.dispatchEvent(new Event('visibilitychange'));
    });
    say(signal('astern', 5));
    await page.locator('.last-signal', { hasText: 'Astern' }).waitFor();
    await page.waitForTimeout(400);
    expect(reported()).not.toContain(5);
    await page.evaluate(() => {
      Object.defineProperty(document, 'visibilityState', { value: 'visible', configurable: true });
      document.dispatchEvent(new Event('visibilitychange'));
    });
    await expect.poll(reported).toContain(5);
  });

  test('the wind is held with one tap, and how far it is off is told', async () => {
    const page = await helm();
    await page.getByRole('button', { name: 'Hold this wind' }).tap();
    await expect.poll(() => boat.commands).toContain('POST /weigh/hold-wind {}');
    say((weigh) => {
      weigh.held = { angle: -24, deviation: 12 };
    });
    await page.locator('.cell', { hasText: /held 24°\sport, 12° to starboard of it/ }).waitFor();
    await page.getByRole('button', { name: 'Let wind go' }).tap();
    await expect.poll(() => boat.commands).toContain('POST /weigh/hold-wind {"angle":null}');
  });

  test('ticks: one low for port, two high for starboard, none while steady, another when it is not known', async () => {
    const page = await open(browser, boat, '/', { hasTouch: true });
    await page.addInitScript(() => {
      const heard: Heard[] = [];
      Object.assign(window, { heard });
      const make = AudioContext.prototype.createOscillator;
      AudioContext.prototype.createOscillator = function () {
        const made = make.call(this);
        const start = made.start.bind(made);
        made.start = (when) => {
          heard.push({ hertz: Math.round(made.frequency.value), at: performance.now() });
          start(when);
        };
        return made;
      };
    });
    await page.goto(`${boat.url}/weigh`);
    await page.locator('.helm').waitFor();
    const heard = () => page.evaluate(() => (window as unknown as { heard: Heard[] }).heard);
    const pitches = async () => new Set((await heard()).map(({ hertz }) => hertz));
    /** The shortest time between ticks of two tones, by the clock that they are given by: what delays one never shortens it. */
    const shortest = async () => {
      const times = (await heard()).map(({ at }) => at);
      return Math.min(...times.slice(2).map((at, i) => at - times[i]!));
    };
    const steer = async (turn: number | undefined, shown: string): Promise<void> => {
      say((weigh) => {
        if (turn === undefined) delete weigh.guidance!.turn;
        else weigh.guidance!.turn = turn;
      });
      await page.locator(shown).waitFor();
      await page.evaluate(() => (window as unknown as { heard: Heard[] }).heard.splice(0));
    };
    await page.getByRole('button', { name: /^Ticks/ }).tap();
    await page.getByRole('button', { name: 'Ticks on' }).waitFor();
    await steer(30, '.steer.starboard:has-text("30°")');
    await expect.poll(async () => (await heard()).length).toBeGreaterThanOrEqual(4);
    expect(await pitches()).toEqual(new Set([1320]));
    const slow = await shortest();
    await steer(-30, '.steer.port:has-text("30°")');
    await expect.poll(async () => (await heard()).length).toBeGreaterThanOrEqual(2);
    expect(await pitches()).toEqual(new Set([330]));
    await steer(56, '.steer.starboard:has-text("56°")');
    await expect.poll(shortest).toBeLessThan(0.7 * slow);
    await steer(9, '.steer.steady');
    await page.waitForTimeout(1500);
    expect(await heard()).toEqual([]);
    await steer(undefined, '.steer.unknown');
    await expect.poll(pitches).toEqual(new Set([220, 165]));
    await page.getByRole('button', { name: 'Ticks on' }).tap();
    await steer(30, '.steer.starboard:has-text("30°")');
    await page.waitForTimeout(1500);
    expect(await heard()).toEqual([]);
  });

  test('stop weighing and aweigh must be held, and a tap on them does nothing', async () => {
    const page = await helm();
    await stopClock(page);
    await page.getByRole('button', { name: 'End' }).tap();
    await page.getByRole('button', { name: /^Aweigh/ }).tap();
    await page.clock.runFor(2000);
    await page.getByRole('button', { name: /^Aweigh/ }).dispatchEvent('pointerdown');
    await page.clock.runFor(900);
    expect(boat.commands.filter((command) => command.includes('weigh'))).toEqual([]);
    await page.clock.runFor(100);
    await expect.poll(() => boat.commands).toEqual(['POST /weigh/aweigh']);
  });

  test('a screen reader hears the report when what is done changes, and not each figure', async () => {
    const page = await helm();
    const spoken = page.locator('.helm > .unseen[role=status]');
    await expect.poll(() => textOf(spoken)).toMatch(/Steer 262°/);
    say((weigh) => {
      weigh.report = '27 m to the anchor. Steer 262°; ahead gently.';
    });
    await page.waitForTimeout(1000);
    expect(await textOf(spoken)).toMatch(/^28/);
  });
});

/** A tick: its pitch, and when it was given by the page's clock, ms. */
interface Heard {
  hertz: number;
  at: number;
}

interface ShownWindow {
  /** By number of the signal: what stood on the page, and what its last painted frame held, when the page told the boat of it. */
  told: Record<number, { standing: string; painted: string; at: number }>;
  /** Keeps what the page tells of signals from the boat. */
  isHeldBack: boolean;
}

/**
 * Runs in the page. A frame's callbacks run just before it is painted, in one task with the painting; so what they find is
 * painted when a later task of the page runs. That later task is asked for ahead of the page's own callback: of timers with the
 * same delay the first asked runs first. So this tells what caused what, without a clock.
 */
function recordShown(): void {
  const own = window as unknown as ShownWindow;
  own.told = {};
  const word = () => document.querySelector('.last-signal .word')?.textContent ?? '';
  let painted = '';
  const frame = window.requestAnimationFrame;
  window.requestAnimationFrame = (callback) =>
    frame((time) => {
      const held = word();
      setTimeout(() => {
        painted = held;
      });
      callback(time);
    });
  const send = WebSocket.prototype.send;
  WebSocket.prototype.send = function (data) {
    const message = JSON.parse(String(data));
    if (message.type !== 'shown') return send.call(this, data);
    own.told[message.signal] ??= { standing: word(), painted, at: Date.now() };
    if (!own.isHeldBack) send.call(this, data);
  };
}

describe('helm page, on the daemon', () => {
  let fed: FedBoat;
  beforeAll(async () => {
    fed = await startFedBoat();
  });
  afterAll(() => fed.stop());

  test('a signal is on the screen before the foredeck is told that it was seen; how long is printed', async () => {
    const call = (path: string, body: object) =>
      fetch(`${fed.url}/api/v1${path}`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
      });
    await expect.poll(async () => (await call('/mark', {})).status).toBe(200);
    expect((await call('/weigh', {})).status).toBe(200);
    const page = await open(browser, fed, '/weigh');
    await page.locator('.helm').waitFor();
    await page.evaluate(recordShown);
    const told = (number: number) =>
      page.evaluate((key) => (window as unknown as ShownWindow).told[key], number);
    const delays: number[] = [];
    for (const [signal, word] of [
      ['heaving', 'Heaving'],
      ['holding', 'Holding'],
      ['stop', 'STOP'],
      ['ahead', 'Ahead'],
      ['lead:1', 'Lead 1 o’clock'],
      ['neutral', 'Neutral'],
      ['snubbed', 'Snubbed'],
    ] as const) {
      let asked = 0;
      let answer: Response | undefined;
      // A busy machine may paint too late to be counted as seen; what is given again is another signal.
      await expect
        .poll(async () => {
          asked = Date.now();
          answer = await call('/signals', { signal });
          return answer.status;
        })
        .toBe(200);
      const { number } = (await answer!.json()) as { number: number };
      // The page has told it before the answer came, and at that moment the word stood there and its frame was done.
      const { at, ...then } = (await told(number))!;
      expect(then).toEqual({ standing: word, painted: word });
      delays.push(at - asked);
    }
    // And it is the page's word that the answer waits for: painted, but kept from the boat, it counts as not seen.
    await page.evaluate(() => Object.assign(window, { isHeldBack: true }));
    const answer = await call('/signals', { signal: 'astern' });
    expect(answer.status).toBe(504);
    await expect
      .poll(() => page.evaluate(() => Object.values((window as unknown as ShownWindow).told)))
      .toContainEqual(expect.objectContaining({ standing: 'Astern', painted: 'Astern' }));
    delays.sort((a, b) => a - b);
    measured(
      `signal to painted helm page: median ${delays[3]} ms, worst ${delays.at(-1)} ms of ${delays.length}`,
    );
    expectNoFaults(page);
  });
});
