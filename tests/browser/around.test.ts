import { describe, expect, test } from 'vitest';
import type { NeighbourView } from '../../shared/neighbours/view.ts';
import type { State } from '../../shared/state.ts';
import { expectNoFaults, open, textOf } from './browser.ts';
import { MARK } from './fakeState.ts';
import { misfits } from './looks.ts';
import { measured } from './measured.ts';
import { boat, browser, useFakeBoat } from './stage.ts';

useFakeBoat();

function neighbour(n: number, at: number, more: Partial<NeighbourView> = {}): NeighbourView {
  const place = {
    lat: MARK.lat + 0.0003 * Math.cos(n) * (1 + n / 60),
    lon: MARK.lon - 0.0003 * Math.abs(Math.sin(n)) * (1 + n / 60),
  };
  return {
    id: `ais-99010000${n}`,
    from: 'ais',
    name: `BOAT ${n}`,
    activity: 'at-anchor',
    activityFrom: 'told',
    place,
    at,
    heading: (40 * n) % 360,
    headingFrom: 'told',
    extent: { toBow: 6, toStern: 6, toPort: 2, toStarboard: 2 },
    extentFrom: 'told',
    distance: 50 + 10 * n,
    bearing: (30 * n) % 360,
    circle: { anchor: place, radius: 40, sigma: 10, veered: 42, veeredFrom: 'assumed' },
    together: 40 + 10 * n,
    outOfStep: 5 - 3 * n,
    ...more,
  };
}

/** Six neighbours, two of which drag. */
const company = (state: State, at: number) => {
  state.neighbours = [1, 2, 3, 4, 5, 6].map((n) =>
    neighbour(
      n,
      at,
      n <= 2 ? { dragging: { beyond: 20, speed: 0.3, toward: 90, reachesUsIn: 200 * n } } : {},
    ),
  );
};

/** Opens the panel under the plan. */
async function around(page: Awaited<ReturnType<typeof open>>) {
  await page.locator('summary', { hasText: 'What lies around' }).click();
  await page.locator('details[open] .neighbour-list').waitFor();
}

describe('six neighbours, two of them dragging', () => {
  test('are drawn, the dragging ones unmistakably, and listed with all that is known', async () => {
    boat.script(company);
    const page = await open(browser, boat);
    await page.locator('.plan .neighbour').nth(5).waitFor();
    await page.getByRole('button', { name: 'Wider' }).click();
    expect(await page.locator('.plan .neighbour.dragging').count()).toBe(2);
    expect(await page.locator('.plan .neighbour.dragging .going').count()).toBe(2);
    expect(await page.locator('.plan .swing').count()).toBe(6);
    await around(page);
    const first = await textOf(page.locator('.neighbour-list li').first());
    expect(first).toMatch(/BOAT 1 at anchor/);
    expect(first).toMatch(/60\sm clear water now · bears 030°/);
    expect(first).toMatch(/probably drags, 20\sm beyond her circle/);
    expect(first).toMatch(/50\sm at least, swinging together/);
    expect(await textOf(page.locator('.neighbour-list li').nth(2))).toMatch(
      /could touch by 4\sm, swinging apart/,
    );
    expect(await misfits(page)).toEqual([]);
    expectNoFaults(page);
  });

  test('one told by hand is put on the plan and taken away; without numbers nothing is sent', async () => {
    boat.script((state, at) => {
      state.neighbours = [
        neighbour(1, at, { id: 'hand-1', from: 'hand', name: 'Blue ketch', activityFrom: 'hand' }),
      ];
    });
    const page = await open(browser, boat);
    await around(page);
    const form = page.locator('form', { hasText: 'Tell a neighbour without AIS' });
    await form.getByRole('button', { name: 'Put on the plan' }).click();
    await form.getByText('Write range and bearing as numbers.').waitFor();
    await form.getByLabel(/^Range of her bow/).fill('60');
    await form.getByLabel(/^Bearing/).fill('120');
    await form.getByLabel(/^What she looks like/).fill('Red cutter');
    await form.getByRole('button', { name: 'Put on the plan' }).click();
    await page.getByText('On the plan.').waitFor();
    await page.locator('.neighbour-list').getByRole('button', { name: 'Take away' }).click();
    await expect
      .poll(() => boat.commands)
      .toEqual([
        'POST /neighbours {"range":60,"bearing":120,"name":"Red cutter"}',
        'DELETE /neighbours/hand-1',
      ]);
  });
});

test('a hundred vessels at a sixth of the speed: figures of the browser, printed', async () => {
  boat.script((state, at) => {
    state.neighbours = Array.from({ length: 100 }, (_, n) => neighbour(n, at));
  });
  const page = await open(browser, boat);
  await page.locator('.plan .neighbour').nth(20).waitFor();
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: 6 });
  const frames = await page.evaluate(
    () =>
      new Promise<number[]>((resolve) => {
        const gaps: number[] = [];
        let last = performance.now();
        const tick = (now: number) => {
          gaps.push(now - last);
          last = now;
          if (gaps.length < 150) requestAnimationFrame(tick);
          else resolve(gaps);
        };
        requestAnimationFrame(tick);
      }),
  );
  const sorted = [...frames].sort((a, b) => a - b);
  measured(
    `plan with 100 vessels at 6x throttle: median frame ${sorted[75]!.toFixed(0)} ms, 95 % ${sorted[142]!.toFixed(0)} ms, worst ${sorted.at(-1)!.toFixed(0)} ms`,
  );
  expect(frames).toHaveLength(150);
  expectNoFaults(page);
});

describe('sectors', () => {
  test('drawn with a finger on the plan, named, and watched', async () => {
    const page = await open(browser, boat);
    await page.locator('summary', { hasText: 'What lies around' }).click();
    await page.getByRole('button', { name: 'Draw with a finger on the plan' }).click();
    const plan = page.locator('.plan svg');
    const box = (await plan.boundingBox())!;
    const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    // From east, clockwise, to south, a hundred pixels from the mark.
    await page.mouse.move(middle.x + 100, middle.y);
    await page.mouse.down();
    for (let a = 0; a <= 90; a += 10) {
      const r = (a * Math.PI) / 180;
      await page.mouse.move(middle.x + 100 * Math.cos(r), middle.y + 100 * Math.sin(r));
    }
    await page.mouse.up();
    const form = page.locator('form', { hasText: 'Draw with a finger' });
    await form.getByLabel(/^Name/).fill('the bank');
    // The middle of the plan is the mark to a pixel or two.
    expect(Math.abs(Number(await form.getByLabel(/^From bearing/).inputValue()) - 90)).toBeLessThan(3);
    expect(Math.abs(Number(await form.getByLabel(/clockwise to bearing/).inputValue()) - 180)).toBeLessThan(
      3,
    );
    await page.locator('.sector.drawing').waitFor();
    await form.getByRole('button', { name: 'Watch this sector' }).click();
    await expect.poll(() => boat.commands).toHaveLength(1);
    const [command] = boat.commands;
    expect(command).toMatch(
      /^PATCH \/watch \{"sectors":\[\{"from":\d+,"to":\d+,"beyond":\d+,"name":"the bank"\}\]\}$/,
    );
    expectNoFaults(page);
  });

  test('limits of the wind relative to now', async () => {
    boat.script((state) => {
      state.vessel.windGround!.value = { from: 230, speed: 7.2 };
    });
    const page = await open(browser, boat);
    await page.locator('summary', { hasText: 'What lies around' }).click();
    await page.getByRole('button', { name: /Warn at 10\skn more than now/ }).click();
    await expect.poll(() => boat.commands).toEqual(['PATCH /watch {"limits":{"windAbove":12.3}}']);
  });
});

describe('the tide page', () => {
  test('says what it cannot know, and takes waters out of a table', async () => {
    const page = await open(browser, boat, '/tide');
    await page.getByText('hawse does not know the tide here').waitFor();
    await page.locator('summary', { hasText: 'Tell the tide' }).click();
    const form = page.locator('form', { hasText: 'From a tide table' });
    await form.getByRole('button', { name: 'Tell these waters' }).click();
    await form.getByText('Write times as hours and minutes').waitFor();
    const waters = [
      ['22:10', '3.1'],
      ['4:25', '0,6'],
    ];
    for (const [i, [time, height]] of waters.entries()) {
      await form.getByLabel(new RegExp(`^Time ${i + 1}`)).fill(time!);
      await form.getByLabel(new RegExp(`^Height ${i + 1}`)).fill(height!);
    }
    await form.getByRole('button', { name: 'Tell these waters' }).click();
    await expect.poll(() => boat.commands).toHaveLength(1);
    const [, , body] = boat.commands[0]!.split(' ');
    const { turns } = JSON.parse(body!) as { turns: { at: number; height: number }[] };
    // The second is after the first, on the next day: 6 h 15 min later.
    expect(turns[1]!.at - turns[0]!.at).toBe(6.25 * 3600);
    expect(turns.map(({ height }) => height)).toEqual([3.1, 0.6]);
  });

  test('shows height, curve, waters to come, least under the keel, the turn of the stream, and where it is from', async () => {
    boat.script((state, at) => {
      const from = Math.floor(at / 600) * 600 - 3600;
      state.tide = {
        from: 'constituents',
        place: 'Haven of Reeds',
        source: 'an invented authority',
        licence: 'as free as air',
        by: 'Ann',
        height: 2.04,
        rising: -0.6,
        curve: {
          from,
          step: 600,
          heights: Array.from({ length: 150 }, (_, i) => 2 + 1.5 * Math.cos(i / 12)),
        },
        turns: [{ at: at + 4 * 3600, height: 0.5, high: false }],
        least: { at: at + 4 * 3600, depth: 2.6, underKeel: 0.7 },
      };
      state.streamTurn = {
        at: { value: at + 2400, sigma: 900 },
        from: 'measured',
        setsAfterwards: 310,
        record: { samples: 40, span: 24_000 },
        report: 'In about 40 min (± 15 min) the stream turns and sets to 310°.',
      };
    });
    const page = await open(browser, boat, '/tide');
    await page.locator('.tide-curve .height').waitFor();
    const seen = await textOf(page.locator('main'));
    expect(seen).toMatch(/2\.0\sm above datum, falling\. At least 0\.7\sm under the keel/);
    expect(seen).toContain('an invented authority · as free as air · told by Ann');
    expect(seen).toContain('In about 40 min (± 15 min) the stream turns and sets to 310°.');
    expect(seen).toContain('Not for navigation');
    expect(await misfits(page)).toEqual([]);
    expectNoFaults(page);
  });
});
