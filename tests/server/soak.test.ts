import { expect, test } from 'vitest';
import { slope } from '../soak/slope.ts';
import { soak } from '../soak/week.ts';

/** A small version of `npm run soak`. */
test('some simulated nights through keeper and journal: live and replayed are the same to the byte', async () => {
  const figures = await soak({ days: 2, hours: 0.15, inputs: 2 });
  expect(figures.faults).toEqual([]);
  expect(figures.replayed).toBe(figures.live);
  expect(figures.events).toBeGreaterThanOrEqual(4);
  expect(figures.sentences).toBeGreaterThan(4000);
});

test('the slope of a line is its slope', () => {
  expect(slope([0, 1, 2, 3].map((x) => ({ x, y: 7 - 2 * x })))).toBeCloseTo(-2, 12);
  expect(slope([{ x: 1, y: 1 }])).toBeNaN();
});
