import { beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { CHAINS } from '../../shared/cable/chain.ts';
import type { PlanRequest } from '../../shared/plan/plan.ts';
import { plan } from '../../shared/plan/plan.ts';
import { fromKnots } from '../../shared/quantities/units.ts';
import { chainOf, SIZES } from '../../web/parts/planner/chain.ts';
import { lyingOut, neededSpan, type Scene, stacked, viewOf } from '../../web/parts/planner/scene.ts';
import { calmState } from '../browser/fakeState.ts';

// What the planner's page works out by itself, without a browser. Its modules ask for the screen's preferences as they load.
vi.stubGlobal('matchMedia', () => ({ matches: true }));
vi.stubGlobal('navigator', { userAgent: '', maxTouchPoints: 0 });

let fields: typeof import('../../web/parts/planner/fields.ts');
let draft: typeof import('../../web/parts/planner/draft.ts');
let faults: typeof import('../../web/parts/planner/faults.ts');
let prefs: typeof import('../../web/prefs.ts');

beforeAll(async () => {
  fields = await import('../../web/parts/planner/fields.ts');
  draft = await import('../../web/parts/planner/draft.ts');
  faults = await import('../../web/parts/planner/faults.ts');
  prefs = await import('../../web/prefs.ts');
});

const state = calmState(1_700_000_000);
const { boat, cable } = state;
const base: PlanRequest = { depth: 25, wind: 10, boat, chain: { size: 10 }, chainLength: 50 };

const metric = () => {
  prefs.lengthUnit.value = 'm';
  prefs.speedUnit.value = 'kn';
};

describe('ranges', () => {
  const refused = (request: PlanRequest, key: string): boolean => {
    const result = plan(request);
    return result.state === 'refused' && result.faults.some((text) => text.includes(`${key} is `));
  };

  test('are the planner’s own: their ends are taken, what lies beyond is refused', () => {
    for (const key of Object.keys(fields.FIELDS) as (keyof typeof fields.FIELDS)[]) {
      const { least, most } = fields.FIELDS[key];
      const asked = (value: number): PlanRequest =>
        key === 'massPerMetre' ? { ...base, chain: { massPerMetre: value } } : { ...base, [key]: value };
      const beyond = (most - least) * 1e-3;
      const found = [least - beyond, least, most, most + beyond].map((value) => refused(asked(value), key));
      expect({ key, found }).toEqual({ key, found: [true, false, false, true] });
    }
  });

  test('are told in the screen’s units, rounded to the inside', () => {
    prefs.lengthUnit.value = 'ft';
    expect(fields.rangeOf('depth')).toEqual({ least: 1.7, most: 656.1 });
    metric();
    expect(fields.rangeOf('depth')).toEqual({ least: 0.5, most: 200 });
    expect(fields.rangeOf('slope')).toEqual({ least: -30, most: 30 });
  });
});

describe('steps', () => {
  beforeEach(metric);

  test.each([
    [6, true, 6.5],
    [6.2, true, 6.5],
    [6.2, false, 6],
    [0.5, false, 0.5],
    [200, true, 200],
    [undefined, true, 1],
  ] as const)('depth %s, up: %s', (from, up, to) => {
    expect(fields.stepped('depth', from, up)).toBeCloseTo(to, 9);
  });

  test('wind goes by five knots, slope below zero', () => {
    expect(fields.stepped('wind', fromKnots(27), true)).toBeCloseTo(fromKnots(30), 9);
    expect(fields.stepped('slope', undefined, false)).toBe(-1);
    expect(fields.stepped('riseToHigh', 0.1 + 0.2, true)).toBeCloseTo(0.4, 9);
  });
});

describe('the draft', () => {
  beforeEach(() => {
    metric();
    draft.draft.value = { entries: {}, chain: 'boat' };
  });

  test('starts from the boat; what is written stays, what is emptied stays empty', () => {
    draft.write('depth', '4');
    draft.write('stream', '');
    const { entries } = draft.filled(draft.draft.value, state);
    expect(entries.depth?.value).toBe(4);
    expect(entries.stream).toEqual({ text: '', unit: 'kn' });
    expect(entries.chainLength?.text).toBe('60');
    // The limit of the wind alarm is 25 kn, and so is the least to prepare for.
    expect(entries.wind?.text).toBe('25');
  });

  test('prepares for the wind that blows, when it is the strongest', () => {
    const blown = structuredClone(state);
    blown.vessel.windGround!.value.speed = fromKnots(38.4);
    expect(draft.filled(draft.draft.value, blown).entries.wind?.text).toBe('39');
  });

  test('an unknown depth is not made up', () => {
    const blind = structuredClone(state);
    delete blind.vessel.depth;
    const filled = draft.filled(draft.draft.value, blind);
    expect(filled.entries.depth).toBeUndefined();
    expect(draft.requestOf(filled, boat, cable)).toEqual({ faults: { depth: 'Needed for a plan.' } });
  });

  test('what is sent is what is read, and the planner takes it', () => {
    draft.draft.value = draft.filled(draft.draft.value, state);
    draft.write('riseToHigh', '1,5');
    const made = draft.requestOf(draft.draft.value, boat, cable);
    if ('faults' in made) throw new Error(JSON.stringify(made));
    expect(made.request).toMatchObject({
      depth: 5.7,
      riseToHigh: 1.5,
      wind: fromKnots(25),
      chainLength: 60,
      chain: { massPerMetre: 2.25, workingLoad: 12_500 },
    });
    expect('fallToLow' in made.request).toBe(false);
    expect(plan(made.request).state).toBe('plan');
  });

  test('a change of unit writes the same value anew', () => {
    draft.write('depth', '6');
    prefs.lengthUnit.value = 'ft';
    expect(draft.textOf('depth', draft.draft.value.entries.depth)).toBe('19.7');
    metric();
    expect(draft.textOf('depth', draft.draft.value.entries.depth)).toBe('6');
  });

  test.each([
    ['depth', 'x', 'Write a number.'],
    ['depth', '0', 'Allowed: 0.5 to 200 m.'],
    ['wind', '156', 'Allowed: 0 to 155.5 kn.'],
    ['slope', '31', 'Allowed: -30 to 30 °.'],
  ] as const)('%s of %s is a fault at that field', (key, text, says) => {
    draft.draft.value = draft.filled(draft.draft.value, state);
    draft.write(key, text);
    expect(draft.requestOf(draft.draft.value, boat, cable)).toEqual({ faults: { [key]: says } });
  });
});

describe('faults of the planner', () => {
  const refusalOf = (request: PlanRequest) => {
    const refused = plan(request);
    if (refused.state !== 'refused') throw new Error('not refused');
    const errors = refused.faults.map((detail) => ({ in: 'body' as const, path: '', detail }));
    return faults.refusalOf({
      type: 'urn:hawse:problem:not-valid',
      title: 'The request is not valid',
      status: 400,
      detail: refused.faults.join(' '),
      errors,
    });
  };

  test('stand at the field that they name, under its label', () => {
    expect(refusalOf({ ...base, fallToLow: 20, depth: 20 })).toEqual({
      faults: {
        fallToLow: 'Fall to low water is more than the depth: the place dries at low water.',
      },
      rest: [],
    });
    expect(refusalOf({ ...base, veer: 5 }).faults.veer).toMatch(/^5 m of cable do not reach the bottom/);
    const { chainLength: _, ...noChain } = base;
    expect(refusalOf({ ...noChain, ropeLength: 20 }).faults.ropeLength).toMatch(
      /^Rope behind it is given without/,
    );
  });

  test('of the boat or of no field are not lost', () => {
    const { rest, faults: at } = refusalOf({ ...base, boat: { ...boat, draft: 40 } });
    expect(at).toEqual({});
    expect(rest).toEqual(['boat.draft is 40; a number from 0.1 to 12 is needed.']);
  });
});

describe('the chain', () => {
  test('the list is that of the planner’s table, and each is one that the planner takes', () => {
    const sizes = [...new Set(CHAINS.map(({ size }) => Number(size.toFixed(4))))].sort((a, b) => a - b);
    expect(SIZES.map(({ choice }) => Number(choice))).toEqual(sizes);
    for (const { choice } of SIZES)
      expect(plan({ ...base, chain: chainOf(choice, cable, undefined)! }).state).toBe('plan');
  });

  test('by mass needs a mass', () => {
    expect(chainOf('mass', cable, undefined)).toBeUndefined();
    expect(chainOf('mass', cable, 1.9)).toEqual({ massPerMetre: 1.9 });
  });
});

describe('the side view', () => {
  const scene: Scene = {
    boat,
    depth: { high: 8, now: 6, low: 5 },
    slope: 0,
    cable: {
      high: [
        { out: 40, up: 9.4 },
        { out: 12, up: 0 },
        { out: 0, up: 0 },
      ],
      low: [
        { out: 41, up: 6.4 },
        { out: 15, up: 0 },
        { out: 0, up: 0 },
      ],
    },
  };

  test.each([
    [390, 180],
    [320, 168],
    [700, 300],
    [900, 90],
  ])('is to scale both ways and within %s × %s', (width, height) => {
    const view = viewOf(scene, neededSpan(scene), { width, height });
    expect(view.x(10) - view.x(0)).toBeCloseTo(view.y(0) - view.y(10), 9);
    expect(view.x(41 + boat.length)).toBeLessThanOrEqual(width);
    expect(view.y(9.4)).toBeGreaterThan(0);
    expect(view.y(0)).toBeLessThan(height);
  });

  test('shows the room where that is near, and stays large where it is not', () => {
    expect(neededSpan({ ...scene, room: 60 })).toBe(60);
    expect(neededSpan({ ...scene, room: 500 })).toBe(41 + boat.length);
  });

  test('on a slope the lowest of the bottom is still in view', () => {
    for (const slope of [-8, 8]) {
      const view = viewOf({ ...scene, slope }, 60, { width: 390, height: 180 });
      for (const out of [0, 60]) {
        expect(view.y(view.bottom(out))).toBeLessThan(180);
        expect(view.y(view.bottom(out))).toBeGreaterThan(0);
      }
    }
  });

  test('labels keep apart, upwards only', () => {
    expect(stacked([100, 96, 40], 14)).toEqual([100, 86, 40]);
    expect(stacked([100, 99, 98], 14)).toEqual([100, 86, 72]);
  });

  test('chain that lies on the bottom ends where it lifts off', () => {
    expect(lyingOut(scene.cable.high, () => 0)).toBe(12);
    expect(
      lyingOut(
        [
          { out: 30, up: 8 },
          { out: 0, up: 0 },
        ],
        () => 0,
      ),
    ).toBe(0);
  });
});
