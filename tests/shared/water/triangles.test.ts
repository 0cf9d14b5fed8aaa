import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { direction, turn } from '../../../shared/quantities/angle.ts';
import { fromKnots, toKnots } from '../../../shared/quantities/units.ts';
import { towards } from '../../../shared/quantities/vector.ts';
import { driftBetween, setAndDrift, streamFrom } from '../../../shared/water/set-drift.ts';
import { courseToSteer, madeGood, windToHold } from '../../../shared/water/steer.ts';
import { groundWind, waterWind } from '../../../shared/water/wind.ts';

const near = (a: number, b: number) => Math.abs(turn(a, b));

describe('course to steer', () => {
  test.each([
    // track, speed, set, drift (kn) → published course, speed made good; computed [C].
    // Practice-chart and textbook plots are good to 2 or 3°.
    ['Bowditch, Dead Reckoning [M]', 95, 12, 170, 2.5, 83.5, 12.4, 83.390839, 12.401565],
    ['kakopa.webcindario.com [F]', 75, 10, 30, 2.5, 85, 11.6, 85.182, 11.6103],
    ['answer sheet, scribd 346108670 [F]', 90, 5, 210, 2, 70, 3.7, 69.7321, 3.6904],
    ['plotted [F]', 45, 6.55, 135, 2, 25, 6.2, 27.2212, 6.2372],
    ['plotted [F]', 235, 6.2, 315, 3.5, 200, 5.8, 201.2245, 5.7613],
    ['plotted [F]', 150, 5.3, 50, 3.5, 190, 3.4, 190.5676, 3.4183],
    ['plotted [F]', 20, 5.9, 90, 1.9, 0, 6.2, 2.3854, 6.2732],
  ])(
    '%s: track %d°, %d kn, set %d°, drift %d kn',
    (_, track, speed, set, drift, course, smg, exact, exactSmg) => {
      const found = courseToSteer({ track, speed: fromKnots(speed), set, drift: fromKnots(drift) });
      if (found.state !== 'course') throw new Error(found.reason);
      expect(near(found.heading, course)).toBeLessThan(3);
      expect(Math.abs(toKnots(found.speedMadeGood) - smg)).toBeLessThan(0.1);
      expect(near(found.heading, exact)).toBeLessThan(1e-3);
      expect(toKnots(found.speedMadeGood)).toBeCloseTo(exactSmg, 3);
    },
  );

  test('make good 265° at 15 kn through set 185° 3 kn: steer 276°, 14.8 kn (Bowditch, nauticalinformation.blogspot.com [F])', () => {
    // The other way about: course and speed through the water are what is left of the velocity made good.
    const needed = setAndDrift(towards(15, 265), 185, { ahead: 3 });
    expect(needed.set).toBeCloseTo(276.532774, 5);
    expect(needed.drift).toBeCloseTo(14.777404, 5);
    expect(near(needed.set!, 276)).toBeLessThan(3);
    const found = courseToSteer({ track: 265, speed: 14.77740392, set: 185, drift: 3 });
    if (found.state !== 'course') throw new Error(found.reason);
    expect(found.heading).toBeCloseTo(276.532774, 5);
    expect(found.speedMadeGood).toBeCloseTo(15, 6);
  });

  test('steer 080° 10 kn in set 140° 2 kn: makes good 089°, 11.2 kn (Bowditch [M]); 088.948276°, 11.135529 [C]', () => {
    const made = madeGood(80, 10, 140, 2);
    expect(made.course).toBeCloseTo(88.948276, 5);
    expect(made.speed).toBeCloseTo(11.135529, 5);
    expect(near(made.course!, 89)).toBeLessThan(3);
    expect(Math.abs(made.speed - 11.2)).toBeLessThan(0.1);
  });

  test('leeway: pushed to starboard, she steers that much further to port', () => {
    const straight = courseToSteer({ track: 40, speed: 3, set: 100, drift: 0.5 });
    const leeway = courseToSteer({ track: 40, speed: 3, set: 100, drift: 0.5, leeway: 5 });
    if (straight.state !== 'course' || leeway.state !== 'course') throw new Error('course expected');
    expect(leeway.heading).toBeCloseTo(straight.heading - 5, 9);
    const made = madeGood(leeway.heading, 3, 100, 0.5, 5);
    expect(made.course).toBeCloseTo(40, 9);
    expect(made.speed).toBeCloseTo(leeway.speedMadeGood, 9);
  });

  test('no course: set aside, set back, no speed', () => {
    expect(courseToSteer({ track: 0, speed: 1, set: 90, drift: 1.2 })).toEqual({
      state: 'none',
      reason: 'set-aside',
    });
    expect(courseToSteer({ track: 0, speed: 1, set: 180, drift: 1.2 })).toEqual({
      state: 'none',
      reason: 'set-back',
    });
    expect(courseToSteer({ track: 0, speed: 1, set: 180, drift: 1 })).toEqual({
      state: 'none',
      reason: 'set-back',
    });
    for (const bad of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(courseToSteer({ track: 0, speed: bad, set: 180, drift: 1 })).toEqual({
        state: 'none',
        reason: 'no-speed',
      });
    }
    expect(courseToSteer({ track: Number.NaN, speed: 1, set: 0, drift: 0 })).toEqual({
      state: 'none',
      reason: 'no-speed',
    });
    expect(madeGood(0, 1, 180, 1).course).toBeUndefined();
  });

  test('any course found makes good its track, at the speed told', () => {
    const angle = fc.double({ min: 0, max: 360, maxExcluded: true, noNaN: true });
    const speed = fc.double({ min: 0.1, max: 10, noNaN: true });
    fc.assert(
      fc.property(
        angle,
        speed,
        angle,
        speed,
        fc.double({ min: -20, max: 20, noNaN: true }),
        (track, sail, set, drift, leeway) => {
          const found = courseToSteer({ track, speed: sail, set, drift, leeway });
          if (found.state === 'none') return;
          const made = madeGood(found.heading, sail, set, drift, leeway);
          expect(Math.abs(made.speed - found.speedMadeGood)).toBeLessThan(1e-9);
          // Slowly made good, a track is hard to tell.
          if (made.speed > 1e-3) expect(near(made.course!, track)).toBeLessThan(1e-6);
        },
      ),
      { numRuns: 2000, seed: 8 },
    );
  });
});

describe('set and drift', () => {
  test('round trip of the Bowditch course: made good 095° 12.40156464 kn, steered 083.39083873° 12 kn → 170°, 2.5 kn [C]', () => {
    const stream = setAndDrift(towards(12.40156464, 95), 83.39083873, { ahead: 12 });
    expect(stream.set).toBeCloseTo(170, 5);
    expect(stream.drift).toBeCloseTo(2.5, 6);
  });

  test('0.5 M towards 045° in 30 minutes: set 045°, drift 1.0 kn (Jamieson, Seamanship Secrets p. 114 [F])', () => {
    const stream = driftBetween(towards(926, 45), 1800);
    expect(stream.set).toBeCloseTo(45, 9);
    expect(toKnots(stream.drift)).toBeCloseTo(1, 9);
  });

  test('at anchor: what flows past the hull, with the boat’s own motion; a two-axis log; leeway', () => {
    const still = { east: 0, north: 0 };
    expect(setAndDrift(still, 30, { ahead: 0.8 })).toEqual({
      set: expect.closeTo(210, 9),
      drift: expect.closeTo(0.8, 9),
    });
    const across = setAndDrift(still, 30, { ahead: 0.3, athwart: -0.4 });
    expect(across.drift).toBeCloseTo(0.5, 9);
    expect(across.set).toBeCloseTo(direction(30 - 53.130102 + 180), 5);
    expect(setAndDrift(towards(2, 90), 85, { ahead: 2 }, 5)).toEqual({ drift: expect.closeTo(0, 9) });
    expect(streamFrom(30)).toBe(210);
  });

  test('a stream of nothing has no set', () => {
    expect(setAndDrift(towards(1, 20), 20, { ahead: 1 }).set).toBeUndefined();
  });
});

describe('wind', () => {
  test.each([
    // heading, boat kn, apparent angle and speed → published wind; computed [C].
    ['manoeuvring-board text, Bowditch [F]', 240, 18, 40, 30, 315, 20, 315.51602, 19.916626],
    ['USCG exam item, choice B (oic-nwreviewer) [F]', 180, 22, -70, 20, 51, 24, 51.109474, 24.145854],
    ['forum, worked [F]', 0, 5, 60, 10, 90, 8.667, 90, 8.660254],
  ])('%s', (_, heading, boat, angle, speed, from, strength, exactFrom, exact) => {
    const found = groundWind({ angle, speed }, heading, { sog: boat, cog: heading })!;
    expect(near(found.from!, from)).toBeLessThan(3);
    expect(Math.abs(found.speed - strength)).toBeLessThan(0.2);
    expect(found.from).toBeCloseTo(exactFrom, 5);
    expect(found.speed).toBeCloseTo(exact, 5);
    const water = waterWind({ angle, speed }, heading, { ahead: boat });
    expect(water.from).toBeCloseTo(exactFrom, 5);
  });

  test('lying still with an unknown course the apparent wind is the wind; under way it is not known', () => {
    expect(groundWind({ angle: -20, speed: 9 }, 10, { sog: 0.1 })).toEqual({
      from: expect.closeTo(350, 9),
      speed: expect.closeTo(9, 9),
    });
    expect(groundWind({ angle: -20, speed: 9 }, 10, { sog: 3 })).toBeUndefined();
  });

  test('a calm has no direction', () => {
    expect(groundWind({ angle: 0, speed: 3 }, 70, { sog: 3, cog: 70 })!.from).toBeUndefined();
  });

  test('over the water and over the ground differ by the stream', () => {
    // Drifting with 1 m/s of stream to the east in no wind over the ground: the water feels wind from the east.
    const ground = groundWind({ angle: 90, speed: 1 }, 0, { sog: 1, cog: 90 })!;
    const water = waterWind({ angle: 90, speed: 1 }, 0, { ahead: 0 });
    expect(ground.speed).toBeCloseTo(0, 9);
    expect(water.from).toBeCloseTo(90, 9);
    expect(water.speed).toBeCloseTo(1, 9);
    expect(waterWind({ angle: 90, speed: 1 }, 0, { ahead: 0, athwart: 1 }).speed).toBeCloseTo(0, 9);
  });

  test('the angle to hold gives back the wind', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 359, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        fc.double({ min: 0, max: 359, noNaN: true }),
        fc.double({ min: 6, max: 30, noNaN: true }),
        fc.double({ min: 0, max: 359, noNaN: true }),
        (heading, speed, from, wind, course) => {
          const hold = windToHold(heading, { speed, course }, { from, speed: wind });
          const back = groundWind({ angle: hold.angle!, speed: hold.speed }, heading, {
            sog: speed,
            cog: course,
          })!;
          expect(near(back.from!, from)).toBeLessThan(1e-6);
          expect(back.speed).toBeCloseTo(wind, 9);
        },
      ),
      { numRuns: 500, seed: 14 },
    );
    expect(windToHold(20, { speed: 2, course: 20 }, { from: 200, speed: 2 }).angle).toBeUndefined();
    expect(windToHold(10, { speed: 0, course: 0 }, { from: 350, speed: 8 }).angle).toBeCloseTo(-20, 9);
  });
});
