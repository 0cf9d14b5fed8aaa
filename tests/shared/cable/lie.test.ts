import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { balance } from '../../../shared/cable/balance.ts';
import { offPrediction, predictedHeading } from '../../../shared/cable/lie.ts';
import type { Form } from '../../../shared/cable/loads/form.ts';
import { direction, turn } from '../../../shared/quantities/angle.ts';

const sloop: Form = { hull: 'monohull', length: 12, beam: 4, draft: 1.9, windage: {} };
const near = (a: number, b: number) => Math.abs(turn(a, b));

describe('heading at anchor', () => {
  test('wind alone: into the wind; stream alone: into the stream; neither: unknown', () => {
    for (const d of [0, 1, 77, 180, 359.5]) {
      expect(near(predictedHeading(sloop, { wind: { from: d, speed: 8 } })!.heading.value, d)).toBeLessThan(
        1e-6,
      );
      const set = direction(d + 180);
      expect(near(predictedHeading(sloop, { stream: { set, drift: 0.5 } })!.heading.value, d)).toBeLessThan(
        1e-6,
      );
    }
    expect(predictedHeading(sloop, {})).toBeUndefined();
    expect(
      predictedHeading(sloop, { wind: { from: 0, speed: 0 }, stream: { set: 0, drift: 0 } }),
    ).toBeUndefined();
  });

  test('more wind turns her from the stream towards the wind, steadily', () => {
    let last = 90;
    for (const speed of [0.5, 2, 5, 8, 12, 16, 25, 40]) {
      const { heading } = predictedHeading(
        sloop,
        { wind: { from: 0, speed }, stream: { set: 270, drift: 0.5 } },
        8,
      )!;
      expect(heading.value).toBeLessThan(last);
      expect(heading.value).toBeGreaterThan(0);
      last = heading.value;
    }
    expect(last).toBeLessThan(12);
  });

  test('a knot of stream outweighs a light breeze and yields to a near gale (common experience [P])', () => {
    const lie = (speed: number) =>
      predictedHeading(sloop, { wind: { from: 0, speed }, stream: { set: 10, drift: 0.51 } }, 8)!.heading
        .value;
    expect(near(lie(4), 190)).toBeLessThan(20);
    expect(near(lie(20), 0)).toBeLessThan(40);
  });

  test('the less wind and stream agree, the less sure; opposed and equally strong, hardly sure at all', () => {
    const sigma = (set: number) =>
      predictedHeading(sloop, { wind: { from: 0, speed: 10 }, stream: { set, drift: 0.5 } }, 8)!.heading
        .sigma;
    expect(sigma(180)).toBeLessThan(sigma(90));
    expect(sigma(90)).toBeLessThan(sigma(5));
    expect(sigma(5)).toBeGreaterThan(35);
    const unsure = predictedHeading(sloop, {
      wind: { from: 0, speed: 10, fromSigma: 40 },
      stream: { set: 90, drift: 0.5, setSigma: 90, driftSigma: 0.4 },
    })!;
    expect(unsure.heading.sigma).toBeGreaterThan(sigma(90));
  });

  test('an unsure speed counts by its share: a knot in forty changes little, a knot in three much', () => {
    const sigma = (speed: number, speedSigma: number) =>
      predictedHeading(sloop, {
        wind: { from: 0, speed, speedSigma },
        stream: { set: 270, drift: speed / 20 },
      })!.heading.sigma;
    expect(sigma(20, 0.5) - sigma(20, 0)).toBeLessThan(0.1);
    expect(sigma(1.5, 0.5) - sigma(1.5, 0)).toBeGreaterThan(1);
  });

  test('shallow water and a catamaran change the balance the way the formulas say', () => {
    const weather = { wind: { from: 0, speed: 10 }, stream: { set: 270, drift: 0.5 } };
    const deep = predictedHeading(sloop, weather, 40)!.heading.value;
    expect(predictedHeading(sloop, weather, 2.5)!.heading.value).toBeGreaterThan(deep);
    const cat: Form = { ...sloop, hull: 'catamaran', beam: 6.8, draft: 1.2 };
    expect(predictedHeading(cat, weather, 40)!.heading.value).toBeLessThan(deep);
  });

  test('some heading always holds; the picture turns with the compass and mirrors', () => {
    const moment = fc.double({ min: 100, max: 1e6, noNaN: true });
    const angle = fc.double({ min: 0, max: 360, noNaN: true, maxExcluded: true });
    fc.assert(
      fc.property(moment, angle, moment, angle, angle, (wind, windFrom, stream, streamFrom, by) => {
        const found = balance({ wind, windFrom, stream, streamFrom });
        expect(found.length).toBeGreaterThan(0);
        for (const heading of found) expect(heading >= 0 && heading < 360).toBe(true);
        // Straight against each other and equally strong, nothing holds her and the picture hangs on the last digit.
        if (near(windFrom, streamFrom) > 150) return;
        const turned = balance({
          wind,
          windFrom: direction(windFrom + by),
          stream,
          streamFrom: direction(streamFrom + by),
        });
        expect(near(turned[0]!, found[0]! + by)).toBeLessThan(1e-3);
        const mirrored = balance({
          wind,
          windFrom: direction(-windFrom),
          stream,
          streamFrom: direction(-streamFrom),
        });
        expect(near(mirrored[0]!, -found[0]!)).toBeLessThan(1e-3);
        // She lies between the two, on the shorter way.
        expect(near(found[0]!, windFrom)).toBeLessThanOrEqual(near(windFrom, streamFrom) + 1e-3);
        expect(near(found[0]!, streamFrom)).toBeLessThanOrEqual(near(windFrom, streamFrom) + 1e-3);
      }),
      { numRuns: 1000, seed: 6 },
    );
  });

  test('straight against each other she may lie to either: the sigma knows that, unless one is far stronger', () => {
    const sigma = (speed: number) =>
      predictedHeading(sloop, { wind: { from: 0, speed }, stream: { set: 0, drift: 0.5 } }, 8)!.heading.sigma;
    expect(sigma(11)).toBeGreaterThan(60);
    expect(sigma(3)).toBeLessThan(35);
    expect(sigma(40)).toBeLessThan(35);
  });

  test('an unknown stream is not a stream of nothing', () => {
    const wind = { from: 0, speed: 6 };
    const none = predictedHeading(sloop, { wind, stream: { set: 0, drift: 0 } })!.heading;
    const unknown = predictedHeading(sloop, { wind })!.heading;
    expect(unknown.value).toBeCloseTo(none.value, 6);
    expect(unknown.sigma).toBeGreaterThan(none.sigma + 5);
  });

  test('a measured heading against the predicted one, in sigmas of both', () => {
    const { off, sigmas } = offPrediction({ value: 350, sigma: 20 }, { value: 20, sigma: 15 });
    expect(off).toBeCloseTo(30, 9);
    expect(sigmas).toBeCloseTo(1.2, 9);
  });

  test('of two headings that hold, the one nearer to where she is', () => {
    const weather = { wind: { from: 0, speed: 12 }, stream: { set: 10, drift: 0.5 } };
    const free = predictedHeading(sloop, weather, 8)!;
    expect(free.other).toBeDefined();
    const there = predictedHeading(sloop, weather, 8, free.other)!;
    expect(near(there.heading.value, free.other!)).toBeLessThan(1e-6);
    expect(near(there.other!, free.heading.value)).toBeLessThan(1e-6);
  });
});
