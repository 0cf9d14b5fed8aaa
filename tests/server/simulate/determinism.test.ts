import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { simulateNight } from '../../../server/simulate/night.ts';
import { randomStreams } from '../../../server/simulate/random.ts';
import { createSimulator, type Truth } from '../../../server/simulate/simulator.ts';
import { mean, named, watch } from './help.ts';

/** A digest of every byte of a night: sentences with their times, and truths. */
function digest(name: string, seed: number, hours: number): string {
  const hash = createHash('sha256');
  for (const item of simulateNight(named(name), seed, hours)) hash.update(JSON.stringify(item));
  return hash.digest('hex');
}

describe('the same seed', () => {
  test('gives the same bytes, another one others', () => {
    expect(digest('quiet-night', 7, 0.2)).toBe(digest('quiet-night', 7, 0.2));
    expect(digest('quiet-night', 7, 0.2)).not.toBe(digest('quiet-night', 8, 0.2));
  });

  test('gives the same night however long the steps are that it is asked for', () => {
    const run = (step: number) => {
      const simulator = createSimulator(named('squall'), 3);
      for (let t = 0; t < 60; t += step) simulator.step(step);
      return { said: simulator.sentences(), truth: simulator.truth() };
    };
    expect(run(0.5)).toEqual(run(20));
  });

  test('moves the boat the same way with another receiver and other instruments', () => {
    const scenario = named('quiet-night');
    const poor = {
      ...scenario,
      gnss: { ...scenario.gnss, every: 5, slow: { sigma: 9, tau: 60 } },
      instruments: { ...scenario.instruments, sends: [] },
    };
    const there = (s: typeof scenario) => watch(createSimulator(s, 11), 120).at(-1);
    expect(there(poor)).toEqual(there(scenario));
  });
});

test('random streams of a seed are normal and know nothing of each other', () => {
  const stream = randomStreams(42);
  const [a, b] = [stream(), stream()];
  const one = Array.from({ length: 50_000 }, () => a.normal());
  const other = Array.from({ length: 50_000 }, () => b.normal());
  expect(mean(one)).toBeCloseTo(0, 1);
  expect(mean(one.map((x) => x * x))).toBeCloseTo(1, 1);
  expect(mean(one.map((x) => x ** 4))).toBeCloseTo(3, 0);
  expect(mean(one.map((x, i) => x * other[i]!))).toBeCloseTo(0, 1);
});

/** The two that work it hardest; the others are watched for hours in anchorages.test.ts. */
test.each(['wind-against-tide', 'drag-creep'])(
  'a day of %s is finite throughout, and no cable pushes',
  (name) => {
    let sentences = 0;
    for (const item of simulateNight(named(name), 2, 24, 10)) {
      if (item.kind === 'said') {
        sentences++;
        if (/NaN|undefined|Infinity/.test(item.said.text)) expect(item.said.text).toBe('a sentence');
        continue;
      }
      const { truth } = item;
      const possible = truth.load >= 0 && truth.load < 20_000 && truth.cableOnBottom >= 0 && truth.depth > 0;
      if (!possible || !numbersOf(truth).every(Number.isFinite)) expect(truth).toBe('possible');
    }
    expect(sentences).toBeGreaterThan(86_400 * 5);
  },
);

const numbersOf = (truth: Truth): number[] =>
  Object.values(truth).flatMap((value: unknown) =>
    typeof value === 'number'
      ? [value]
      : typeof value === 'object'
        ? (Object.values(value as object) as number[])
        : [],
  );
