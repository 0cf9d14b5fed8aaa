import { expect, test } from 'vitest';
import type { Chart } from '../../../shared/soundings/chart.ts';
import { searchCircle, spotsOf } from '../../../shared/soundings/least.ts';
import { SOUNDINGS } from '../../../shared/soundings/limits.ts';
import { createChance } from '../../fuzz/random.ts';

const { side, reach } = SOUNDINGS;

function chartOf(count: number, seed: number): Chart {
  const { below } = createChance(seed);
  const cells: Chart['cells'] = {};
  for (let n = 0; n < count; n++) {
    const [i, j] = [below(40) - 20, below(40) - 20];
    const depths = Array.from({ length: below(10) }, () => 3 + below(400) / 100 + i * 0.05);
    cells[`${i},${j}`] = { depths, at: 0 };
  }
  return { origin: { lat: 0, lon: 0 }, reduced: false, cells };
}

/** Share of the circle that is sounded or near soundings, cell by cell as it is meant. */
function shareByHand(chart: Chart, centre: { east: number; north: number }, radius: number): number {
  const known = spotsOf(chart).map(({ i, j }) => [i, j] as const);
  let all = 0;
  let seen = 0;
  for (let i = -60; i <= 60; i++)
    for (let j = -60; j <= 60; j++) {
      if (Math.hypot((i + 0.5) * side - centre.east, (j + 0.5) * side - centre.north) > radius) continue;
      all++;
      if (known.some(([k, l]) => Math.hypot(i - k, j - l) <= reach / side)) seen++;
    }
  return seen / all;
}

test('the share of the circle is the one that is counted cell by cell', () => {
  for (let seed = 1; seed <= 40; seed++) {
    const chart = chartOf(seed * 5, seed);
    const centre = { east: seed - 20, north: 7 - seed };
    const radius = 8 + seed * 3;
    const { share } = searchCircle(spotsOf(chart), centre, radius);
    if (share > 0) expect(share).toBeCloseTo(shareByHand(chart, centre, radius), 12);
  }
});

test('the largest circle that can be set does not stop the watch: two hundred looks at it, found by the fuzz', () => {
  const chart = chartOf(1600, 1);
  for (let n = 0; n < 200; n++) {
    const { share, shoalest } = searchCircle(spotsOf(chart), { east: n, north: -n }, 5000);
    expect(share).toBeLessThan(0.001);
    expect(shoalest).toBeDefined();
  }
});
