import { describe, expect, test } from 'vitest';
import { fromKnots } from '../../../shared/quantities/units.ts';
import { CAUTIONS } from '../../../shared/weigh/cautions.ts';
import { type GuidanceRequest, guide } from '../../../shared/weigh/guidance.ts';
import { APPROACH } from '../../../shared/weigh/limits.ts';
import { Boat, settings } from './help.ts';

/** Calm without wind has no leeway, so that the course is that of the current triangle alone. */
const guidance = (request: Partial<GuidanceRequest>) => {
  const answer = guide({ boat: settings(request.boat?.hull).boat, distance: 40, bearing: 0, ...request });
  if ('none' in answer) throw new Error(answer.none);
  return answer.guidance;
};

describe('course to steer to the anchor: published current triangles (seamanship-physics.md §4), speeds in knots', () => {
  test.each([
    // Asked the other way round: 15 kn to be made good takes 14.8 kn through the water.
    [
      'Bowditch DR chapter, as worked at nauticalinformation.blogspot.com 2008 [F]',
      265,
      14.8,
      185,
      3,
      276,
      15,
    ],
    ['Bowditch, Pub. 9 [M]', 95, 12, 170, 2.5, 83.5, 12.4],
    ['kakopa.webcindario.com [F]', 75, 10, 30, 2.5, 85, 11.6],
    ['practice chart, scribd 346108670 [F]', 90, 5, 210, 2, 70, 3.7],
    ['plotted [F]', 235, 6.2, 315, 3.5, 200, 5.8],
    ['plotted [F]', 150, 5.3, 50, 3.5, 190, 3.4],
    ['plotted [F]', 20, 5.9, 90, 1.9, 0, 6.2],
  ])('%s', (_source, track, speed, set, drift, course, madeGood) => {
    const told = guidance({
      bearing: track,
      speed: fromKnots(speed),
      stream: { set, drift: fromKnots(drift) },
    });
    // Plotted answers are good to 3° and 0.1 kn, says the reference.
    expect(Math.abs(((told.course - course + 540) % 360) - 180)).toBeLessThan(3);
    expect(told.madeGood / fromKnots(1)).toBeCloseTo(madeGood, 0);
    expect(Math.abs(told.madeGood / fromKnots(1) - madeGood)).toBeLessThan(0.13);
  });

  test('more exactly: make good 095° at 12 kn, set 170° drift 2.5: 083.390839°, 12.401565 kn [C]', () => {
    const told = guidance({ bearing: 95, speed: fromKnots(12), stream: { set: 170, drift: fromKnots(2.5) } });
    expect(told.course).toBeCloseTo(83.390839, 4);
    expect(told.madeGood / fromKnots(1)).toBeCloseTo(12.401565, 5);
  });

  test('wind angle on a course: 5 kn into 8⅔ kn of wind from abeam feels 10 kn at 60° (worked on a forum [F], exact [C])', () => {
    const boat = { ...settings().boat, windage: { area: 1e-9 } };
    const told = guidance({
      boat,
      bearing: 0,
      speed: fromKnots(5),
      wind: { from: 90, speed: fromKnots(8.660254) },
    });
    expect(told.windAngle).toBeCloseTo(60, 1);
  });
});

describe('facts of the trade, each: common practice, no source', () => {
  test('at anchor, left alone, the wind comes from ahead and the cable leads ahead', () => {
    const boat = new Boat();
    boat.pass(5, { distance: 38, heading: 2, wind: { from: 0, speed: 8 } });
    const { lead, guidance: told } = boat.now();
    expect(lead).toMatchObject({ name: 'ahead', clock: 12 });
    expect(Math.abs(told!.windAngle!)).toBeLessThan(10);
  });

  test('engines, not the windlass, bring the boat up; idle ahead is enough in light wind', () => {
    const light = guidance({ closing: 0.5, heading: 0, wind: { from: 0, speed: 3 } });
    expect(light.engine).toBe('ahead-gently');
    expect(light.throughWater).toBeLessThan(fromKnots(2));
    expect(CAUTIONS.find(({ id }) => id === 'windlass')!.text).toMatch(/engine/);
  });

  test('neither bar-tight nor hanging slack: a slack cable asks for no more way, until the windlass has it', () => {
    expect(guidance({ slack: true }).closing).toBe(0);
    expect(guidance({ slack: true, closing: 0.4 }).engine).not.toMatch(/ahead/);
    expect(guidance({}).closing).toBeGreaterThan(0.3);
  });

  test.each(['monohull', 'catamaran'] as const)(
    'with stream across, the wind angle that brings a %s up the cable is not zero',
    (hull) => {
      const { boat } = settings(hull);
      const wind = { from: 0, speed: fromKnots(12) };
      const across = guidance({ boat, wind, stream: { set: 90, drift: fromKnots(0.8) } });
      // Set to the east, she steers to the west of the anchor: the wind is on her starboard bow.
      expect(across.course).toBeGreaterThan(300);
      expect(across.windAngle).toBeGreaterThan(8);
      expect(Math.abs(guidance({ boat, wind }).windAngle!)).toBeLessThan(1);
    },
  );

  test('about 4 m of cable left means almost over the anchor', () => {
    const boat = new Boat();
    expect(APPROACH.nearEnd).toBe(4);
    boat.counter(12.5);
    boat.pass(5, { distance: 9, heading: 0 });
    expect(boat.now().nearEnd).toBeUndefined();
    boat.counter(11.8);
    boat.pass(5, { distance: 8, heading: 0 });
    expect(boat.now().nearEnd).toBe(true);
    expect(boat.now().report).toMatch(/Slow: almost over the anchor/);
  });

  test('the shorter the cable, the smaller and quicker the corrections, and the slower the last metres', () => {
    const told = [40, 20, 10, 5, 2].map((distance) => guidance({ distance }));
    for (let i = 1; i < told.length; i++) {
      const [before, now] = [told[i - 1]!, told[i]!];
      expect(now.correction.most).toBeLessThanOrEqual(before.correction.most);
      expect(now.correction.every).toBeLessThanOrEqual(before.correction.every);
      expect(now.closing).toBeLessThanOrEqual(before.closing);
      expect(now.scale).toBeLessThanOrEqual(before.scale);
    }
    expect(told.at(-1)!.closing).toBeLessThan(told[0]!.closing / 2);
    expect(guidance({ nearEnd: true }).closing).toBeLessThan(0.1);
  });

  test('a deeply set anchor is broken out by snubbing and riding ahead over it, not by the windlass', () => {
    const boat = new Boat();
    boat.counter(8.4);
    const taut = () => {
      boat.counter(8.2);
      return { distance: 4, heading: 0 };
    };
    boat.pass(5, taut);
    boat.signal('heaving');
    const changes = boat.pass(40, taut);
    expect(changes.some((change) => change.endsWith('+cable-taut'))).toBe(true);
    const { text } = boat.found.find(({ kind }) => kind === 'cable-taut')!;
    expect(text).toMatch(/snub/);
    expect(text).toMatch(/ease ahead/);
  });

  test('slack water is the time to choose: in a stream too strong for a slow approach it says so and gives no course', () => {
    const strong = { stream: { set: 180, drift: fromKnots(4) } };
    const answer = guide({ boat: settings().boat, distance: 40, bearing: 0, ...strong });
    expect(answer).toEqual({ none: expect.stringContaining('slack water') });
  });

  test('a bridle leads from two bows: a catamaran’s cable is foul earlier than a monohull’s', () => {
    const foul = (hull: 'monohull' | 'catamaran') => {
      const boat = new Boat(hull);
      boat.signal('heaving');
      boat.signal('out:31');
      boat.signal('holding');
      return boat.pass(10, { distance: 30, heading: 60 }).length > 0;
    };
    expect(foul('catamaran')).toBe(true);
    expect(foul('monohull')).toBe(false);
  });
});

test('wind from starboard pushes her to port: she steers to windward of the anchor', () => {
  const told = guidance({ wind: { from: 45, speed: fromKnots(15) } });
  expect(told.leeway).toBeLessThan(-3);
  expect(told.course).toBeGreaterThan(3);
  expect(told.course).toBeLessThan(45);
});

test('far off the course she brings her bow round first', () => {
  const told = guidance({ heading: 120, closing: 0 });
  expect(told).toMatchObject({ roundFirst: true, closing: 0, turn: -120 });
});
