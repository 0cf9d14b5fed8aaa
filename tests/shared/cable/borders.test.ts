import { describe, expect, test } from 'vitest';
import { underwater, windage } from '../../../shared/cable/loads/form.ts';
import { streamAlong } from '../../../shared/cable/loads/stream.ts';
import { windLoad } from '../../../shared/cable/loads/wind.ts';
import { type ReachRequest, reachNow, steadyPull } from '../../../shared/cable/reach.ts';
import { rodeAt, rodeUnder } from '../../../shared/cable/rode.ts';
import { nylonSnubber, surge } from '../../../shared/cable/surge.ts';
import { type Rode, span } from '../../../shared/cable/walk.ts';
import { carried, yacht } from './help.ts';

/** Where formulas begin and end, and signs that no published line shows. */
const boat = { hull: 'monohull', length: 12, beam: 4, draft: 1.9, windage: {} } as const;

describe('a rode on a slope', () => {
  // 20 m of chain of 20 N/m from 10 m up, drawn so hard that none lies: force up at the anchor is force up at the roller less the weight.
  const lifted = (slope: number) => {
    const rode: Rode = { parts: [{ length: 20, weight: 20 }], height: 10, slope };
    const shape = carried(rodeUnder(rode, 3000));
    expect(shape.onBottom).toBe(0);
    const up = Math.sqrt(shape.tensionAtRoller ** 2 - 3000 ** 2) - 20 * 20;
    return { shape, toLevel: (Math.atan2(up, 3000) * 180) / Math.PI };
  };

  test.each([10, 0, -10])(
    'of %d°: the pull on the anchor is told as an angle to the bottom, not to the level',
    (slope) => {
      const { shape, toLevel } = lifted(slope);
      expect(shape.angleAtAnchor).toBeCloseTo(Math.max(0, toLevel - slope), 6);
    },
  );

  test('a bottom that falls away from the anchor lifts it more', () => {
    expect(lifted(-10).shape.angleAtAnchor).toBeGreaterThan(lifted(0).shape.angleAtAnchor);
  });

  test('on the bottom the pull falls by its weight times the sine of the slope, and friction times the cosine [C]', () => {
    const rode: Rode = { parts: [{ length: 60, weight: 20 }], height: 10, slope: 8, friction: 0.5 };
    const shape = carried(rodeUnder(rode, 900));
    const angle = (8 * Math.PI) / 180;
    expect(shape.onBottom).toBeGreaterThan(10);
    expect(shape.tensionAtAnchor).toBeGreaterThan(0);
    expect(shape.tensionAtAnchor).toBeCloseTo(
      900 / Math.cos(angle) - 20 * shape.onBottom * (Math.sin(angle) + 0.5 * Math.cos(angle)),
      6,
    );
  });
});

describe('what is no rode', () => {
  const chain = { length: 40, weight: 20 };
  const height = 10;
  const none = { state: 'infeasible', reason: 'not-a-cable' };

  test('is refused: no parts, one bad part among good ones, no stiffness, a cliff, a friction below none', () => {
    for (const bad of [
      { parts: [], height },
      { parts: [chain, { length: 10, weight: Number.NaN }], height },
      { parts: [chain, { length: 1e6, weight: 20 }], height },
      { parts: [{ ...chain, stiffness: 0 }], height },
      { parts: [chain], height, slope: 61 },
      { parts: [chain], height, slope: -61 },
      { parts: [chain], height, friction: -0.1 },
      { parts: [chain], height: 0 },
    ] satisfies Rode[])
      expect(rodeUnder(bad, 100)).toEqual(none);
    expect(rodeUnder({ parts: [chain], height, slope: 60 }, 1e5).state).not.toBe('infeasible');
  });

  test('so is a pull or a reach that is none; a rode as long as the water is deep is too short', () => {
    for (const pull of [-1, Number.NaN, Number.POSITIVE_INFINITY])
      expect(rodeUnder({ parts: [chain], height }, pull)).toEqual(none);
    for (const reach of [-1, Number.NaN, 1e6, Number.POSITIVE_INFINITY])
      expect(rodeAt({ parts: [chain], height }, reach)).toEqual(none);
    expect(rodeUnder({ parts: [chain], height: 40 }, 100)).toEqual({
      state: 'infeasible',
      reason: 'too-short',
    });
  });

  test('nearer than slack it hangs straight down, wherever she is', () => {
    for (const reach of [0, 15, 30])
      expect(rodeAt({ parts: [chain], height }, reach)).toMatchObject({
        state: 'slack',
        reach,
        horizontal: 0,
        suspended: 10,
        onBottom: 30,
        tensionAtRoller: 200,
      });
  });

  test('of rope above chain the rope hangs first', () => {
    const parts = [
      { length: 30, weight: 20 },
      { length: 6, weight: 2 },
    ];
    expect(rodeUnder({ parts, height }, 0)).toMatchObject({ tensionAtRoller: 6 * 2 + 4 * 20 });
  });
});

test('a piece that hangs gains height with both forces, as the difference of two spans shows', () => {
  for (const stiffness of [undefined, 50_000]) {
    const part = { length: 40, weight: 20, ...(stiffness === undefined ? {} : { stiffness }) };
    const at = (up: number) => span(part, 40, 900, up, up - 800);
    const step = 0.01;
    expect(at(1500).gain).toBeCloseTo((at(1500 + step).rise - at(1500 - step).rise) / (2 * step), 8);
  }
});

describe('forces', () => {
  const request: ReachRequest = {
    veered: 50,
    depth: 8,
    rollerHeight: 1.5,
    massPerMetre: 2.3,
    boat: { ...boat, windage: { area: 12 } },
    windSpeed: 10,
  };

  test('wind and stream add as vectors: at right angles by Pythagoras, against each other by their difference', () => {
    const wind = windLoad(12, 10);
    const stream = streamAlong(underwater(boat), 0.8);
    const pull = (divergence: number) =>
      steadyPull({ boat: request.boat, windSpeed: 10, streamDrift: 0.8, divergence }).value;
    expect(pull(90)).toBeCloseTo(Math.hypot(wind, stream), 9);
    expect(pull(-90)).toBeCloseTo(Math.hypot(wind, stream), 9);
    expect(pull(60)).toBeCloseTo(Math.sqrt(wind ** 2 + stream ** 2 + wind * stream), 9);
    expect(pull(180)).toBeCloseTo(Math.abs(wind - stream), 9);
    // A stream that runs backwards is none.
    expect(steadyPull({ boat: request.boat, windSpeed: 10, streamDrift: -0.8 }).value).toBeCloseTo(wind, 9);
  });

  test('a length veered is known to 3 %, and no better than a metre', () => {
    const sigma = (veered: number, veeredSigma?: number) =>
      reachNow({ ...request, veered, ...(veeredSigma === undefined ? {} : { veeredSigma }) })!.reach.sigma;
    expect(sigma(50)).toBeCloseTo(sigma(50, 1.5), 12);
    expect(sigma(20)).toBeCloseTo(sigma(20, 1), 12);
  });

  test('measures that are none give no reach; a cable that does not reach the bottom reaches nowhere', () => {
    for (const bad of [
      { veered: 0 },
      { veered: -5 },
      { veered: 1e6 },
      { depth: -1.5 },
      { depth: 1e6 },
      { massPerMetre: 0 },
      { veered: Number.NaN },
    ])
      expect(reachNow({ ...request, ...bad })).toBeUndefined();
    expect(reachNow({ ...request, veered: 9.5 })).toEqual({
      reach: { value: 0, sigma: 1 },
      taut: 0,
      slack: 0,
    });
    // A wind below none is not known.
    expect(reachNow({ ...request, windSpeed: -1 })!.load).toBeUndefined();
    expect(reachNow({ ...request, windSpeed: Number.NaN })!.load).toBeUndefined();
  });

  test('the hull under water: wetted surface 1.7·T·L + V/T (UFC 4-159-03 §4-5 [F]) for each hull', () => {
    const mono = underwater({ ...boat, displacement: 10_000 });
    expect(mono.waterline).toBeCloseTo(0.92 * 12, 9);
    expect(mono.volume).toBeCloseTo(10_000 / 1025, 1);
    expect(mono.wetted).toBeCloseTo(1.7 * 1.9 * mono.waterline + mono.volume / 1.9, 9);
    const cat = underwater({ ...boat, hull: 'catamaran', displacement: 10_000 });
    expect(cat.wetted).toBeCloseTo(2 * 1.7 * 1.9 * cat.waterline + cat.volume / 1.9, 9);
    // Slender hulls of a catamaran are together narrower than she is wide; a monohull no wider than her beam.
    expect(cat.breadth).toBeGreaterThan(0.1 * 12);
    expect(cat.breadth).toBeLessThan(4);
    expect(mono.breadth).toBeGreaterThan(2.5);
    expect(mono.breadth).toBeLessThanOrEqual(4);
  });

  test('a told drag area is good to 15 %, an estimated one to 35 %; from abeam always estimated', () => {
    const told = windage({ ...boat, windage: { area: 12 } });
    const guessed = windage(boat);
    expect(told.ahead.sigma / told.ahead.value).toBeCloseTo(0.15, 9);
    expect(guessed.ahead.sigma / guessed.ahead.value).toBeCloseTo(0.35, 9);
    expect(told.abeam.sigma / told.abeam.value).toBeCloseTo(0.35, 9);
  });
});

describe('a surge', () => {
  const hang = yacht(2.3, 9.5, 50);
  const given = { hang, load: 800, mass: 10_000, speed: 1 };

  test('of measures that are none is none', () => {
    expect(surge(given)).toBeDefined();
    for (const bad of [
      { mass: 0 },
      { mass: 1e9 },
      { speed: -0.1 },
      { speed: 50 },
      { load: 0 },
      { snubber: 0 },
      { hang: { ...hang, height: 0 } },
      { hang: { ...hang, height: 50 } },
      { hang: { ...hang, weight: 0 } },
      { hang: { ...hang, length: 1e6 } },
    ])
      expect(surge({ ...given, ...bad })).toBeUndefined();
  });

  test('a snubber of 12 mm nylon, 10 m long: a fourth part of 208 N/mm² · d² more than itself, by its length [P]', () => {
    // 15 % of 208 · 12² = 4493 N stretches it by 12 % of 10 m.
    expect(nylonSnubber(12, 10).value).toBeCloseTo((0.15 * 208 * 144) / 1.2, 6);
    expect(nylonSnubber(12, 10).sigma).toBeCloseTo(nylonSnubber(12, 10).value / 3, 9);
  });
});
