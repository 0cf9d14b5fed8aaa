import { describe, expect, test } from 'vitest';
import {
  correct,
  createFilter,
  expected,
  type FilterModel,
  forgetReach,
  lying,
  predict,
  reference,
} from '../../../../shared/watch/drag/filter.ts';

const model: FilterModel = {
  setBackSigma: 0,
  slowSigma: 0,
  slowTime: 1000,
  loadSigma: 0,
  loadTime: 1000,
  reachSigma: 0,
};
const north = { east: 0, north: 1, gain: 0 };
const south = { east: 0, north: -1, gain: 0 };

describe('the filter of a held anchor', () => {
  // One constant measured n times: the posterior is the mean weighted with its information, 1/P = 1/P0 + n/R (any textbook, e.g.
  // Gelb, Applied Optimal Estimation, 1974, example 4.2-1 [M]): P0 = 9, R = 4, readings 3, 5, 4 → 12·9/(4+27) = 3.483871, P = 36/31.
  test('a constant offset: precision adds up, the mean is weighted by it', () => {
    const filter = createFilter(0, 3, false, model);
    for (const excess of [3, 5, 4]) correct(filter, north, excess, 4);
    expect(lying(filter).north).toBeCloseTo(108 / 31, 12);
    expect(lying(filter).varNorth).toBeCloseTo(36 / 31, 12);
    expect(lying(filter).east).toBe(0);
    expect(lying(filter).varEast).toBeCloseTo(9, 12);
  });

  // Offset and reach enter as o + r looking north and as −o + r looking south: two exact readings solve both.
  test('offset and length of cable are told apart once she has lain on both sides', () => {
    const filter = createFilter(0, 3, false, { ...model, reachSigma: 1 });
    correct(filter, north, 5, 1e-9);
    expect(reference(filter, south).variance).toBeGreaterThan(1);
    correct(filter, south, -1, 1e-9);
    expect(lying(filter).north).toBeCloseTo(3, 6);
    expect(reference(filter, { east: 1, north: 0, gain: 0 }).excess).toBeCloseTo(2, 6);
    expect(reference(filter, south).variance).toBeLessThan(1e-6);
  });

  // Gauss–Markov: x(t + dt) = x·e^(−dt/τ), variance σ²(1 − e^(−2dt/τ)) + P·e^(−2dt/τ).
  test('the slow error fades and its variance comes back to what it was', () => {
    const filter = createFilter(0, 1e-6, false, { ...model, slowSigma: 2 });
    correct(filter, north, 2, 4);
    expect(expected(filter, north).excess).toBeCloseTo(1, 9);
    expect(expected(filter, north).variance).toBeCloseTo(2, 9);
    predict(filter, 500, { ...model, slowSigma: 2 });
    const keep = Math.exp(-1);
    expect(expected(filter, north).excess).toBeCloseTo(Math.exp(-0.5), 9);
    expect(expected(filter, north).variance).toBeCloseTo(2 * keep + 4 * (1 - keep), 9);
  });

  test('what is considered and not learnt keeps mean and variance; the covariance stays one', () => {
    const filter = createFilter(0, 3, false, { ...model, slowSigma: 2, reachSigma: 1 });
    const before = { ...lying(filter) };
    for (let i = 0; i < 50; i++) {
      predict(filter, 20 * i, { ...model, slowSigma: 2, reachSigma: 1 });
      correct(filter, north, 6, 1, false);
    }
    expect(lying(filter)).toEqual(before);
    expect(expected(filter, north).excess).toBeGreaterThan(1);
    for (let i = 0; i < 6; i++)
      for (let j = 0; j < 6; j++) {
        expect(filter.p[6 * i + j]).toBeCloseTo(filter.p[6 * j + i]!, 12);
        expect(filter.p[6 * i + j]! ** 2).toBeLessThanOrEqual(filter.p[7 * i]! * filter.p[7 * j]! + 1e-9);
      }
  });

  test('a mark taken with the same receiver shares its error of that moment', () => {
    const own = createFilter(0, 2, true, { ...model, slowSigma: 1.5 });
    const other = createFilter(0, 2, false, { ...model, slowSigma: 1.5 });
    // 4 + 2.25 − 2·2.25 against 4 + 2.25.
    expect(expected(own, north).variance).toBeCloseTo(1.75, 12);
    expect(expected(other, north).variance).toBeCloseTo(6.25, 12);
  });

  test('cable veered: the reach is unknown again, the offset is not', () => {
    const filter = createFilter(0, 3, false, { ...model, reachSigma: 1 });
    correct(filter, north, 5, 1e-9);
    correct(filter, south, -1, 1e-9);
    forgetReach(filter, { ...model, reachSigma: 1 });
    expect(lying(filter).north).toBeCloseTo(3, 6);
    expect(reference(filter, north).excess).toBeCloseTo(3, 6);
    expect(reference(filter, north).variance).toBeCloseTo(1, 6);
  });
});
