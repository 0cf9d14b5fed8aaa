import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { hangUnder } from '../../../shared/cable/catenary.ts';
import { underwater } from '../../../shared/cable/loads/form.ts';
import { streamAlong } from '../../../shared/cable/loads/stream.ts';
import { windLoad } from '../../../shared/cable/loads/wind.ts';
import { submergedWeight } from '../../../shared/cable/nature.ts';
import { type ReachRequest, reachNow } from '../../../shared/cable/reach.ts';
import { allFinite, carried } from './help.ts';

const boat = { hull: 'monohull', length: 12, beam: 4, draft: 1.9, windage: { area: 12 } } as const;
const request: ReachRequest = {
  veered: 50,
  depth: 8,
  rollerHeight: 1.5,
  massPerMetre: 2.3,
  boat,
  windSpeed: 10,
};

describe('reach of the cable now', () => {
  test('it is the catenary under the steady pull of wind and stream', () => {
    const now = reachNow({ ...request, streamDrift: 0.6 })!;
    const pull = windLoad(12, 10) + streamAlong(underwater(boat), 0.6);
    expect(now.load?.value).toBeCloseTo(pull, 6);
    const hang = { length: 50, height: 9.5, weight: submergedWeight(2.3) };
    expect(now.reach.value).toBeCloseTo(carried(hangUnder(hang, pull)).reach, 9);
    expect(now.taut).toBeCloseTo(49.089205, 6);
    expect(now.slack).toBeCloseTo(40.5, 9);
  });

  test('its sigma: drag area and gusts, through the catenary; depth by h/s; length veered', () => {
    const now = reachNow({ ...request, depthSigma: 0.4, veeredSigma: 0.8 })!;
    const load = now.load!;
    // A told drag area is good to 15 %, gusts to 35 %.
    expect(load.sigma / load.value).toBeCloseTo(Math.hypot(0.15, 0.35), 9);
    const hang = { length: 50, height: 9.5, weight: submergedWeight(2.3) };
    const reach = (pull: number) => carried(hangUnder(hang, pull)).reach;
    const spread = Math.exp(load.sigma / load.value);
    const byLoad = (reach(load.value * spread) - reach(load.value / spread)) / 2;
    const byDepth = reachNow({ ...request, depth: 8.4 })!.reach.value - now.reach.value;
    expect(now.reach.sigma).toBeCloseTo(Math.hypot(byLoad, byDepth, 0.8), 2);
    expect(reachNow({ ...request, streamDrift: 0.6, windSpeed: 0 })!.load!.sigma).toBeCloseTo(
      0.4 * streamAlong(underwater(boat), 0.6),
      6,
    );
  });

  test('wind against stream pulls less than both together', () => {
    const load = (divergence: number) => reachNow({ ...request, streamDrift: 0.6, divergence })!.load!.value;
    expect(load(180)).toBeLessThan(load(90));
    expect(load(90)).toBeLessThan(load(0));
  });

  test('a calm leaves it slack; an unknown wind leaves it anywhere between slack and taut', () => {
    expect(reachNow({ ...request, windSpeed: 0 })!.reach.value).toBeCloseTo(40.5, 9);
    const { windSpeed: _, ...calm } = request;
    const unknown = reachNow(calm)!;
    expect(unknown.load).toBeUndefined();
    expect(unknown.reach.value).toBeCloseTo((40.5 + 49.089205) / 2, 5);
    expect(unknown.reach.sigma).toBeCloseTo((49.089205 - 40.5) / Math.sqrt(12), 5);
  });

  test('a cable that does not reach the bottom has no reach; nonsense has no answer', () => {
    expect(reachNow({ ...request, veered: 9 })).toMatchObject({ taut: 0, slack: 0, reach: { value: 0 } });
    expect(reachNow({ ...request, veered: Number.NaN })).toBeUndefined();
    expect(reachNow({ ...request, depth: -3 })).toBeUndefined();
    expect(reachNow({ ...request, massPerMetre: 0 })).toBeUndefined();
  });

  test('rope behind the chain reaches further in a light wind, since there is less weight to lift', () => {
    const light = { ...request, windSpeed: 4 };
    expect(reachNow({ ...light, chainLength: 20 })!.reach.value).toBeGreaterThan(
      reachNow(light)!.reach.value,
    );
    expect(reachNow({ ...light, chainLength: 60 })).toEqual(reachNow(light));
  });

  test('always between slack and taut, growing with the wind, with a sigma, and finite', () => {
    const any = fc.record({
      veered: fc.double({ min: 1, max: 200, noNaN: true }),
      depth: fc.double({ min: 0.5, max: 60, noNaN: true }),
      windSpeed: fc.double({ min: 0, max: 60, noNaN: true }),
      streamDrift: fc.double({ min: 0, max: 4, noNaN: true }),
      divergence: fc.double({ min: -180, max: 180, noNaN: true }),
    });
    fc.assert(
      fc.property(
        any,
        fc.option(fc.double({ min: 1, max: 100, noNaN: true }), { nil: undefined }),
        (parts, chain) => {
          const asked = { ...request, ...parts, ...(chain === undefined ? {} : { chainLength: chain }) };
          const now = reachNow(asked)!;
          expect(allFinite(now)).toBe(true);
          expect(now.reach.value).toBeGreaterThanOrEqual(now.slack - 1e-6);
          expect(now.reach.value).toBeLessThanOrEqual(now.taut + 1e-6);
          expect(now.reach.sigma).toBeGreaterThan(0);
          const harder = reachNow({ ...asked, divergence: 0, windSpeed: parts.windSpeed + 5 })!;
          const softer = reachNow({ ...asked, divergence: 0 })!;
          expect(harder.reach.value).toBeGreaterThanOrEqual(softer.reach.value - 1e-6);
        },
      ),
      { numRuns: 500, seed: 21 },
    );
  });
});
