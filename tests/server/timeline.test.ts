import { describe, expect, test } from 'vitest';
import { createTimeline } from '../../server/timeline.ts';

describe('the timeline of the daemon', () => {
  test('stamps never repeat and never go back, even when the clock stands still', () => {
    const timeline = createTimeline(1_700_000_000, 1, { monotonic: () => 5 });
    const stamps = Array.from({ length: 1000 }, () => timeline.stamp());
    for (let i = 1; i < stamps.length; i++) expect(stamps[i]!).toBeGreaterThan(stamps[i - 1]!);
    expect(stamps.at(-1)! - stamps[0]!).toBeLessThan(0.0011);
  });

  test('stamps survive being written with six decimals and read again', () => {
    let monotonic = 0;
    const timeline = createTimeline(1_796_000_000.123, 1, { monotonic: () => monotonic });
    for (let i = 0; i < 2000; i++) {
      monotonic += 0.000_37;
      const stamp = timeline.stamp();
      expect(Number(stamp.toFixed(6))).toBe(stamp);
    }
  });

  test('it follows the monotonic clock at its rate', () => {
    let monotonic = 100;
    const timeline = createTimeline(1000, 60, { monotonic: () => monotonic });
    monotonic += 2;
    expect(timeline.now()).toBe(1120);
    expect(timeline.stamp()).toBe(1120);
  });
});
