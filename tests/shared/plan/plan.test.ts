import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { hangUnder } from '../../../shared/cable/catenary.ts';
import { submergedWeight } from '../../../shared/cable/nature.ts';
import { type Plan, type PlanRequest, plan } from '../../../shared/plan/plan.ts';
import { fromKnots } from '../../../shared/quantities/units.ts';
import { allFinite, carried } from '../cable/help.ts';

const boat = {
  hull: 'monohull',
  length: 12.8,
  beam: 4.1,
  draft: 1.9,
  roller: { height: 1.5 },
  antenna: { aftOfRoller: 9, toStarboard: 1.5 },
  windage: { area: 12 },
} as const;
const request: PlanRequest = {
  depth: 5,
  riseToHigh: 5,
  fallToLow: 1,
  boat,
  chain: { massPerMetre: 2.25, workingLoad: 12_500 },
  wind: fromKnots(30),
  gustFactor: 1,
  sheerFactor: 1,
};

function planned(asked: PlanRequest): Extract<Plan, { state: 'plan' }> {
  const answer = plan(asked);
  if (answer.state === 'refused') throw new Error(answer.faults.join(' '));
  return answer;
}

describe('how much to veer', () => {
  test.each([
    // §9 [C]: C_d·A 12 m², 2.25 kg/m, h 6.5 m: least length without lift at 20, 30, 40 kn; then h 11.5 m.
    [0, 20, 23.8646],
    [0, 30, 35.0514],
    [0, 40, 46.3823],
    [5, 20, 32.636],
    [5, 30, 47.2354],
    [5, 40, 62.1586],
  ])('rise %d m, %d kn: the next whole metre above %d m, or scope 4', (rise, knots, least) => {
    const { items } = planned({ ...request, riseToHigh: rise, wind: fromKnots(knots) });
    const height = 5 + rise + 1.5;
    expect(items.veer.value).toBe(Math.ceil(Math.max(least, 4 * height)));
    expect(items.scope.value).toBeCloseTo(items.veer.value / height, 9);
    expect(items.angleAtAnchor.value).toBe(0);
  });

  test('gust and sheer make about three times of it, which is what the trade’s table stands for', () => {
    const bare = planned(request).items.windLoad.value;
    const { gustFactor: _, sheerFactor: __, ...rest } = request;
    expect(planned(rest).items.windLoad.value / bare).toBeCloseTo(1.4 ** 2 * 1.5, 9);
  });

  test('a length that is asked for is taken, with its angle and a caution when it is too little', () => {
    const { items, cautions } = planned({ ...request, veer: 30, wind: fromKnots(40) });
    expect(items.veer.value).toBe(30);
    const shape = carried(
      hangUnder({ length: 30, height: 11.5, weight: submergedWeight(2.25) }, items.load.value),
    );
    expect(items.angleAtAnchor.value).toBeCloseTo(shape.angleAtAnchor, 9);
    expect(items.angleAtAnchor.value).toBeGreaterThan(8);
    expect(items.angleAtAnchor.caution).toMatch(/8°/);
    expect(items.workingLoadShare!.value).toBeCloseTo(shape.tensionAtRoller / 12_500, 9);
    expect(cautions).toContain(items.angleAtAnchor.caution);
    expect(items.onBottom.value).toBe(0);
  });

  test('rope makes up what chain is missing; all on board may still be too little', () => {
    const rope = planned({ ...request, chainLength: 30, ropeLength: 60, wind: fromKnots(25) });
    expect(rope.items.veer.value).toBeGreaterThanOrEqual(6 * 11.5 - 1);
    expect(rope.items.angleAtAnchor.value).toBeLessThan(0.2);
    expect(rope.items.veer.caution).toBeUndefined();
    const little = planned({ ...request, chainLength: 30, wind: fromKnots(40) });
    expect(little.items.veer.value).toBe(30);
    expect(little.items.veer.caution).toMatch(/not enough/);
    expect(planned({ ...request, veer: 45, chainLength: 30 }).items.veer.caution).toMatch(/Only 30 m/);
  });

  test('a bottom that falls away towards the boat needs more', () => {
    const flat = planned({ ...request, riseToHigh: 0 }).items.veer.value;
    const falling = planned({ ...request, riseToHigh: 0, slope: -4 });
    expect(falling.items.veer.value).toBeGreaterThan(flat);
    expect(falling.items.angleAtAnchor.value).toBeLessThan(0.01);
    const short = planned({ ...request, riseToHigh: 0, slope: -4, veer: falling.items.veer.value - 3 });
    expect(short.items.angleAtAnchor.value).toBeGreaterThan(0);
  });
});

describe('what it takes', () => {
  test('circles of a taut cable at low water, room left, and the longest cable for the room', () => {
    const { items } = planned({ ...request, veer: 50, depth: 8, riseToHigh: 0, fallToLow: 0, room: 70 });
    // L 50, h 9.5 → 49.089205 [C].
    expect(items.circleRoller.value).toBeCloseTo(49.089205, 6);
    expect(items.circleStern.value).toBeCloseTo(49.089205 + 12.8, 6);
    expect(items.circleAntenna.value).toBeCloseTo(Math.hypot(49.089205 + 9, 1.5), 5);
    expect(items.roomLeft!.value).toBeCloseTo(70 - 61.889205, 5);
    expect(items.longestForRoom!.value).toBeCloseTo(Math.hypot(70 - 12.8, 9.5), 9);
    const again = planned({
      ...request,
      depth: 8,
      riseToHigh: 0,
      fallToLow: 0,
      room: 70,
      veer: items.longestForRoom!.value,
    });
    expect(again.items.roomLeft!.value).toBeCloseTo(0, 9);
    expect(planned({ ...request, veer: 50, room: 40 }).items.roomLeft!.caution).toMatch(
      /larger than the room/,
    );
  });

  test('water under the keel at low water, less on a slope, with a caution in time', () => {
    expect(planned({ ...request, fallToLow: 2 }).items.underKeelLow.value).toBeCloseTo(1.1, 9);
    const sloping = planned({ ...request, fallToLow: 2, slope: 1, veer: 50 }).items;
    expect(sloping.underKeelLow.value).toBeCloseTo(
      1.1 - Math.tan(Math.PI / 180) * sloping.circleStern.value,
      9,
    );
    expect(planned({ ...request, fallToLow: 2.8 }).items.underKeelLow.caution).toMatch(/half a metre/);
    const aground = planned({ ...request, fallToLow: 4 });
    expect(aground.items.underKeelLow.caution).toMatch(/takes the ground/);
    expect(aground.cautions[0]).toBe(aground.items.underKeelLow.caution);
  });

  test('reach grows as the water falls, and the profile runs from roller to anchor', () => {
    const { items, profile } = planned(request);
    expect(items.reachLow.value).toBeGreaterThan(items.reachHigh.value);
    expect(profile.high[0]).toEqual({ out: expect.closeTo(items.reachHigh.value, 9), up: 11.5 });
    expect(profile.low[0]).toEqual({ out: expect.closeTo(items.reachLow.value, 9), up: 5.5 });
    expect(profile.high.at(-1)).toEqual({ out: 0, up: 0 });
  });

  test('the design table stands beside our figure, never in it', () => {
    const { items } = planned(request);
    expect(items.tableLoad!.value / 4.4482216).toBeCloseTo(2000, 0);
    expect(items.load.value).toBeCloseTo(items.windLoad.value + items.streamLoad.value, 9);
    expect(items.tableLoad!.caution).toMatch(/differ much/);
  });

  test('a surge on chain alone has no figure and says why; a snubber gives it one', () => {
    const calm = { ...request, riseToHigh: 0, surge: 1 };
    const bare = planned(calm);
    expect(bare.items.surgePeak).toBeUndefined();
    expect(bare.cautions.join()).toMatch(/use a snubber/);
    const soft = planned({ ...calm, snubber: { diameter: 14, length: 10 } });
    expect(soft.items.surgePeak!.value).toBeGreaterThan(soft.items.load.value);
    expect(planned(request).items.surgePeak).toBeUndefined();
  });

  test('an estimated drag area says so; a told one does not', () => {
    expect(planned({ ...request, boat: { ...boat, windage: {} } }).items.windLoad.caution).toMatch(
      /estimated/,
    );
    expect(planned(request).items.windLoad.caution).toBeUndefined();
    expect(planned({ ...request, chain: { size: 10 } }).items.workingLoadShare!.source).toMatch(
      /ISO 4565 grade 30/,
    );
  });

  test('every figure has a unit, a formula and a source with its mark', () => {
    const { items } = planned({ ...request, room: 90, surge: 0.2, snubber: { diameter: 14, length: 10 } });
    expect(Object.keys(items)).toHaveLength(18);
    for (const item of Object.values(items)) {
      expect(['m', 'N', '°', '×']).toContain(item.unit);
      expect(item.formula.length).toBeGreaterThan(5);
      expect(item.source).toMatch(/\[[FMPC]\]|as told/);
    }
  });
});

describe('requests', () => {
  test('each fault is named with what is allowed, all at once', () => {
    const refused = plan({ ...request, depth: -3, wind: Number.NaN, chain: { size: 9 } });
    if (refused.state !== 'refused') throw new Error('refusal expected');
    expect(refused.faults).toEqual([
      'depth is -3; a number from 0.5 to 200 is needed.',
      'wind is NaN; a number from 0 to 80 is needed.',
      'chain.size is 9 mm, which is not in the chain table; give massPerMetre instead.',
    ]);
    expect(plan({ ...request, fallToLow: 5 })).toMatchObject({
      state: 'refused',
      faults: [expect.stringContaining('dries')],
    });
    expect(plan({ ...request, veer: 11 })).toMatchObject({
      state: 'refused',
      faults: [expect.stringContaining('do not reach the bottom')],
    });
    expect(plan({ ...request, ropeLength: 20 })).toMatchObject({
      state: 'refused',
      faults: [expect.stringContaining('without chainLength')],
    });
  });

  test('any numbers give a plan of finite figures or a refusal', () => {
    const any = fc.oneof(
      { weight: 15, arbitrary: fc.double({ min: 1, max: 60, noNaN: true }) },
      { weight: 1, arbitrary: fc.double({ noNaN: true, noDefaultInfinity: true }) },
    );
    const maybe = fc.option(any, { nil: undefined });
    let plans = 0;
    fc.assert(
      fc.property(
        fc.record({
          depth: fc.double({ min: 1, max: 60, noNaN: true }),
          wind: any,
          riseToHigh: fc.double({ min: 0, max: 10, noNaN: true }),
        }),
        fc.record({
          veer: maybe,
          room: maybe,
          stream: maybe,
          surge: maybe,
          chainLength: maybe,
          ropeLength: maybe,
        }),
        fc.double({ min: -12, max: 12, noNaN: true }),
        (needed, optional, slope) => {
          const told = Object.fromEntries(
            Object.entries(optional).filter(([, value]) => value !== undefined),
          );
          const answer = plan({ ...request, ...needed, ...told, fallToLow: 0, slope });
          expect(allFinite(answer)).toBe(true);
          if (answer.state === 'plan') plans++;
          else expect(answer.faults.length).toBeGreaterThan(0);
        },
      ),
      { numRuns: 1000, seed: 12 },
    );
    expect(plans).toBeGreaterThan(50);
  });

  test('a plan is plain data', () => {
    const answer = planned(request);
    expect(JSON.parse(JSON.stringify(answer))).toEqual(answer);
  });
});
