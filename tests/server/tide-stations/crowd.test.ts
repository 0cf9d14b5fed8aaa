import { expect, test } from 'vitest';
import { stationsNear } from '../../../server/tide-stations/stations.ts';

test('many that ask at once are not all looked up: each look-up takes a hundred megabytes', async () => {
  const answers = await Promise.all(Array.from({ length: 12 }, () => stationsNear(36.6, -121.9)));
  const refused = answers.filter((answer) => !answer.ok && /try again in a moment/.test(answer.why));
  expect(refused).toHaveLength(8);
  const after = await stationsNear(36.6, -121.9);
  expect(after.ok || !/try again/.test(after.why)).toBe(true);
});
