import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { hangAt } from '../../../shared/cable/catenary.ts';
import { cableState } from '../../../shared/cable/state.ts';

const at = (distance: number, sigma = 0.01) =>
  cableState({ distance: { value: distance, sigma }, veered: 50, height: 9.5 });

describe('state of the cable from distance', () => {
  test('its limits are those of the catenary: leading within 15° of straight down, and lift-off', () => {
    for (let distance = 38; distance < 49; distance += 0.05) {
      const shape = hangAt({ length: 50, height: 9.5, weight: 19.6 }, distance);
      if (shape.state === 'infeasible' || shape.state === 'taut') throw new Error(shape.state);
      if (Math.abs(shape.angleAtRoller - 75) < 0.5) continue;
      const expected = shape.state === 'lifted' ? 'taut' : shape.angleAtRoller > 75 ? 'slack' : 'fair';
      if (Math.abs(distance - 48.787841) > 0.03)
        expect([distance, at(distance)?.state]).toEqual([distance, expected]);
    }
  });

  test('lift-off of the reference’s case, x = 48.787841 [C]', () => {
    expect(at(48.787, 1e-4)).toMatchObject({ state: 'fair', certainty: expect.closeTo(1, 6) });
    expect(at(48.789, 1e-4)).toMatchObject({ state: 'taut', certainty: expect.closeTo(1, 6) });
    expect(at(48.787841, 1)?.certainty).toBeCloseTo(0.5, 2);
  });

  test('its certainty is the probability of the state: a poor position is less sure', () => {
    expect(at(30, 3)?.certainty).toBeGreaterThan(0.99);
    expect(at(47, 3)?.state).toBe('fair');
    expect(at(47, 3)!.certainty).toBeLessThan(at(47, 1)!.certainty);
    expect(at(60, 3)).toMatchObject({ state: 'taut' });
    expect(at(48, 0)).toEqual({ state: 'fair', certainty: 1 });
  });

  test('one and two sigmas from lift-off: 84.134 % and 97.725 % of the normal distribution', () => {
    expect(at(48.787841 - 0.1, 0.1)?.certainty).toBeCloseTo(0.84134, 4);
    expect(at(48.787841 + 0.2, 0.1)?.certainty).toBeCloseTo(0.97725, 4);
  });

  test('too short to reach the bottom is taut; nonsense has no state', () => {
    expect(cableState({ distance: { value: 1, sigma: 2 }, veered: 9, height: 9.5 })).toEqual({
      state: 'taut',
      certainty: 1,
    });
    expect(
      cableState({ distance: { value: Number.NaN, sigma: 2 }, veered: 50, height: 9.5 }),
    ).toBeUndefined();
    expect(cableState({ distance: { value: 40, sigma: 2 }, veered: 50, height: 0 })).toBeUndefined();
  });

  test('any cable: probabilities stay in 1/3..1, and further away is never slacker', () => {
    const order = { slack: 0, fair: 1, taut: 2 };
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 40, noNaN: true }),
        fc.double({ min: 1.01, max: 15, noNaN: true }),
        fc.double({ min: 0, max: 1.2, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        (height, scope, share, sigma) => {
          const veered = height * scope;
          const near = cableState({ distance: { value: share * veered, sigma }, veered, height })!;
          const far = cableState({ distance: { value: share * veered + 1, sigma }, veered, height })!;
          expect(near.certainty).toBeGreaterThan(0.333);
          expect(near.certainty).toBeLessThanOrEqual(1);
          expect(order[far.state]).toBeGreaterThanOrEqual(order[near.state]);
        },
      ),
      { numRuns: 1000, seed: 2 },
    );
  });
});
