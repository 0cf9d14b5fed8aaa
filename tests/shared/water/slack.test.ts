import { describe, expect, test } from 'vitest';
import { towards } from '../../../shared/quantities/vector.ts';
import { nextSlack } from '../../../shared/water/next-slack.ts';
import { slackByTable, slackDuration } from '../../../shared/water/slack.ts';
import {
  fitStream,
  fittedStream,
  type StreamSample,
  separable,
} from '../../../shared/water/stream-record.ts';
import { type ConstituentName, M2_PERIOD, SPEEDS } from '../../../shared/water/tide/speeds.ts';

const HOUR = 3600;
const KNOT = 1852 / 3600;

describe('duration of slack', () => {
  // NOAA Tidal Current Tables, table 4A [M], T = 12 h: minutes weaker than 0.1 to 0.5 kn; beside them computed [C].
  const below = [0.1, 0.2, 0.3, 0.4, 0.5];
  test.each([
    [1, [23, 46, 70, 94, 120], [22.96, 46.1, 69.8, 94.3, 120.0]],
    [2, [11, 23, 35, 46, 58], [11.5, 23.0, 34.5, 46.1, 57.9]],
  ])('strongest stream %d kn', (most, published, computed) => {
    below.forEach((limit, k) => {
      const minutes = slackDuration(most, limit, 12 * HOUR)! / 60;
      expect(Math.abs(minutes - published[k]!)).toBeLessThan(0.6);
      expect(minutes).toBeCloseTo(computed[k]!, 0);
    });
  });

  test('with the true semidiurnal period 23.8 to 124.2 minutes [C]', () => {
    expect(slackDuration(1, 0.1)! / 60).toBeCloseTo(23.8, 1);
    expect(slackDuration(1, 0.5)! / 60).toBeCloseTo(124.2, 1);
  });

  test('a stream that never gets stronger has no slack of its own', () => {
    expect(slackDuration(0.3, 0.3)).toBeUndefined();
    expect(slackDuration(0, 0.1)).toBeUndefined();
    expect(slackDuration(1, -0.1)).toBeUndefined();
    expect(slackDuration(Number.NaN, 0.1)).toBeUndefined();
  });

  test('from a table of slack: longer on the side of the weaker stream', () => {
    const slack = slackByTable({ at: 10_000, strengthBefore: 2 * KNOT, strengthAfter: KNOT }, 0.5 * KNOT)!;
    expect((slack.at - slack.from) / 60).toBeCloseTo(57.9 / 2 / (12 / 12.4206), 0);
    expect((slack.until - slack.at) / 60).toBeCloseTo(124.2 / 2, 0);
    expect(slack.duration).toBeCloseTo(slack.until - slack.from, 6);
    expect(slackByTable({ at: 0, strengthBefore: 0.1, strengthAfter: 1 }, 0.2)).toBeUndefined();
  });
});

/** A stream along an axis made of known constituents, with a ripple that no constituent explains. */
function record(
  hours: number,
  parts: [ConstituentName, number, number][],
  {
    axis = 60,
    mean = 0.05,
    ripple = 0.02,
    step = 600,
    gap = [0, 0],
  }: {
    axis?: number;
    mean?: number;
    ripple?: number;
    step?: number;
    gap?: [number, number];
  } = {},
): { samples: StreamSample[]; truth: (at: number) => number } {
  const truth = (at: number) =>
    parts.reduce(
      (sum, [name, size, phase]) =>
        sum + size * Math.cos((((SPEEDS[name] * at) / HOUR - phase) * Math.PI) / 180),
      mean,
    );
  const samples: StreamSample[] = [];
  for (let at = 0; at <= hours * HOUR; at += step) {
    if (at > gap[0] * HOUR && at < gap[1] * HOUR) continue;
    const wobble = ripple * Math.sin(at * 0.0137);
    const along = towards(truth(at) + wobble, axis);
    const across = towards(ripple * Math.cos(at * 0.0091), axis + 90);
    samples.push({ at, stream: { east: along.east + across.east, north: along.north + across.north } });
  }
  return { samples, truth };
}

const fitted = (samples: StreamSample[]) => {
  const fit = fitStream(samples);
  if (fit.state !== 'fitted') throw new Error(fit.reason);
  return fit;
};

describe('record of the stream', () => {
  test('which constituents a record can tell apart', () => {
    expect(separable(6 * HOUR)).toEqual([]);
    expect(separable(7 * HOUR)).toEqual(['M2']);
    expect(separable(20 * HOUR)).toEqual(['M2']);
    expect(separable(24 * HOUR)).toEqual(['M2', 'K1', 'M4']);
    expect(separable(5 * 24 * HOUR)).toEqual(['M2', 'K1', 'M4']);
    expect(separable(13.5 * 24 * HOUR)).toEqual(['M2', 'K1', 'M4', 'O1']);
    expect(separable(30 * 24 * HOUR)).toEqual(['M2', 'K1', 'M4', 'O1', 'S2', 'N2']);
  });

  test('a day of M2 and K1 gives back its constituents, its axis and the next slack', () => {
    const { samples, truth } = record(25, [
      ['M2', 0.8, 40],
      ['K1', 0.15, 200],
    ]);
    const fit = fitted(samples);
    const along = Math.min(Math.abs(fit.axis - 60), Math.abs(fit.axis - 240));
    expect(along).toBeLessThan(2);
    const sign = Math.abs(fit.axis - 60) < 90 ? 1 : -1;
    for (let at = 0; at < 30 * HOUR; at += HOUR) {
      const { value, sigma } = fittedStream(fit, at);
      expect(Math.abs(sign * value - truth(at))).toBeLessThan(Math.max(0.03, 3 * sigma));
    }
    const slack = nextSlack(fit, 25 * HOUR, 0.25 * KNOT);
    if (slack.state !== 'slack') throw new Error(slack.reason);
    expect(Math.abs(truth(slack.at.value))).toBeLessThan(0.03);
    expect(slack.at.sigma).toBeLessThan(30 * 60);
    expect(slack.from).toBeLessThan(slack.at.value);
    expect(slack.until).toBeGreaterThan(slack.at.value);
    // About T/π·asin(v₀/v_max) for the strength of this tide.
    expect(slack.duration / slackDuration(0.85, 0.25 * KNOT)!).toBeCloseTo(1, 0);
    const after = truth(slack.at.value + HOUR);
    expect(Math.abs(slack.setsAfterwards - (after > 0 ? 60 : 240))).toBeLessThan(2);
  });

  test('half a day is enough for M2 with a larger sigma; less than half a tide is not, and it says how much is there', () => {
    const parts: [ConstituentName, number, number][] = [['M2', 0.8, 40]];
    const short = nextSlack(fitted(record(8, parts).samples), 8 * HOUR);
    const long = nextSlack(fitted(record(18, parts).samples), 18 * HOUR);
    if (short.state !== 'slack' || long.state !== 'slack') throw new Error('slack expected');
    expect(short.at.sigma).toBeGreaterThan(0);
    const fit = fitStream(record(5, parts).samples);
    expect(fit).toMatchObject({ state: 'unknown', reason: expect.stringContaining('5.0 h') });
  });

  test('springs and neaps in a short record: the next slack stays within three sigmas', () => {
    // S2 at 0.46 of M2 (equilibrium tide); a day’s record knows nothing of it.
    for (const phase of [0, 60, 120, 180, 240, 300]) {
      const { samples, truth } = record(25, [
        ['M2', 0.8, 40],
        ['S2', 0.37, phase],
        ['K1', 0.1, 10],
      ]);
      const slack = nextSlack(fitted(samples), 27 * HOUR);
      if (slack.state !== 'slack') throw new Error(slack.reason);
      let nearest = Number.POSITIVE_INFINITY;
      for (let at = 20 * HOUR; at < 50 * HOUR; at += 60) {
        if (Math.sign(truth(at)) !== Math.sign(truth(at + 60))) {
          nearest = Math.min(nearest, Math.abs(at - slack.at.value));
        }
      }
      expect(nearest).toBeLessThan(3 * slack.at.sigma);
    }
  });

  test('a fortnight and more finds S2, so that springs and neaps are foretold', () => {
    const { samples, truth } = record(20 * 24, [
      ['M2', 0.8, 40],
      ['S2', 0.37, 100],
      ['K1', 0.1, 10],
      ['O1', 0.08, 300],
    ]);
    const fit = fitted(samples);
    expect(fit.constituents).toContain('S2');
    const sign = Math.abs(fit.axis - 60) < 90 ? 1 : -1;
    for (let at = 20 * 24 * HOUR; at < 22 * 24 * HOUR; at += HOUR) {
      expect(Math.abs(sign * fittedStream(fit, at).value - truth(at))).toBeLessThan(0.05);
    }
  });

  test('a stream that does not turn, one that rotates, gaps, and nothing: said in words', () => {
    const river = fitted(record(26, [['M2', 0.2, 0]], { mean: 0.9 }).samples);
    expect(nextSlack(river, 26 * HOUR)).toMatchObject({
      state: 'unknown',
      reason: expect.stringContaining('keeps its direction'),
    });
    const round = Array.from({ length: 150 }, (_, k) => ({
      at: k * 600,
      stream: towards(0.5, ((k * 600) / M2_PERIOD) * 360),
    }));
    expect(fitStream(round)).toMatchObject({ state: 'unknown', reason: expect.stringContaining('no slack') });
    const holes = record(24, [['M2', 0.8, 0]], { gap: [2, 21] }).samples;
    expect(fitStream(holes)).toMatchObject({ state: 'unknown', reason: expect.stringContaining('gaps') });
    expect(fitStream([])).toMatchObject({ state: 'unknown' });
    expect(fitStream([{ at: Number.NaN, stream: { east: 0, north: 0 } }])).toMatchObject({
      state: 'unknown',
    });
  });

  test('a noisy weak stream: slack is not told as a time', () => {
    const { samples } = record(8, [['M2', 0.03, 40]], { ripple: 0.08, mean: 0 });
    const fit = fitStream(samples);
    if (fit.state === 'unknown') return expect(fit.reason).toMatch(/no slack/);
    expect(nextSlack(fit, 8 * HOUR)).toMatchObject({ state: 'unknown' });
  });

  test('a fit is plain data', () => {
    const fit = fitted(record(25, [['M2', 0.8, 40]]).samples);
    expect(JSON.parse(JSON.stringify(fit))).toEqual(fit);
  });
});
