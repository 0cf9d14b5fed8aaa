import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { rollerOf } from '../../../shared/vessel/roller.ts';
import { displacement } from '../../../shared/vessel/step.ts';
import { fix, HOME, Rig, START, say } from './help.ts';

describe('antenna to roller', () => {
  /** Geodesy reference §6: ψ 37°, f 9.0, p −0.8 gives dE 4.777427, dN 7.669172 m [C]. Antenna to starboard: roller to port of it. */
  test('as published', () => {
    const offset = { aftOfRoller: 9, toStarboard: 0.8 };
    const roller = rollerOf(HOME, 2, offset, { value: 37, sigma: 1 });
    const moved = displacement(HOME, roller);
    expect(moved.east).toBeCloseTo(4.777427, 5);
    expect(moved.north).toBeCloseTo(7.669172, 5);
  });

  /** Reference §6: 9 m × 5° = 0.785 m [C]. */
  test('an error of the heading moves it by its share of the offset', () => {
    const { sigma } = rollerOf(HOME, 0, { aftOfRoller: 9, toStarboard: 0 }, { value: 37, sigma: 5 });
    expect(sigma).toBeCloseTo(0.785, 3);
  });

  test('without heading it is where the antenna is, within the whole offset', () => {
    const roller = rollerOf(HOME, 4, { aftOfRoller: 3, toStarboard: 0 }, undefined);
    expect(roller).toEqual({ ...HOME, sigma: 5 });
  });

  test('is as far from the antenna as it was measured, on any heading, also across the date line', () => {
    const metres = fc.double({ min: 0, max: 30, noNaN: true });
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 360, noNaN: true }),
        metres,
        metres,
        fc.constantFrom(HOME, { lat: -17, lon: 179.99999 }, { lat: 60, lon: -180 }),
        (value, aftOfRoller, toStarboard, antenna) => {
          const roller = rollerOf(antenna, 1, { aftOfRoller, toStarboard }, { value, sigma: 1 });
          const { east, north } = displacement(antenna, roller);
          expect(Math.hypot(east, north)).toBeCloseTo(Math.hypot(aftOfRoller, toStarboard), 6);
          expect(Math.abs(roller.lon)).toBeLessThanOrEqual(180);
        },
      ),
    );
  });
});

test('in the view the roller is ahead of the antenna, as old as the fix', () => {
  const rig = new Rig();
  for (let i = 0; i < 4; i++) rig.hear(START + i, fix('GPGGA', START + i));
  rig.hear(START + 3.4, say('HEHDT', { kind: 'heading', heading: 0 }));
  const seen = rig.view(START + 3.5);
  expect(seen.roller?.at).toBe(START + 3);
  expect(seen.roller?.age).toBeCloseTo(0.5, 6);
  const { north, east } = displacement(HOME, seen.roller!.value);
  expect(north).toBeCloseTo(9, 3);
  expect(east).toBeCloseTo(-0.8, 3);
});
