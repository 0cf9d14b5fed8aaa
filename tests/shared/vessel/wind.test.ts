import { describe, expect, test } from 'vitest';
import { fromKnots, toKnots } from '../../../shared/quantities/units.ts';
import { Rig, START, say } from './help.ts';

const heading = (value: number) => say('HEHDT', { kind: 'heading', heading: value });
const apparent = (angle: number, knots: number) =>
  say('WIMWV', { kind: 'wind-apparent', angle, speed: fromKnots(knots) });
const moving = (knots: number, cog?: number) =>
  say('GPVTG', { kind: 'motion', sog: fromKnots(knots), ...(cog === undefined ? {} : { cog }) });

function wind(...sentences: ReturnType<typeof say>[]) {
  const rig = new Rig();
  for (const sentence of sentences) rig.hear(START, sentence);
  return rig.view().windGround?.value;
}

describe('ground wind from apparent wind, heading and motion', () => {
  /** Bowditch weather example [F]: from 315°, 20 kn, plotted; computed 315.516020°, 19.916626 kn [C]. */
  test('course 240°, 18 kn, apparent 40° to starboard, 30 kn', () => {
    const { from, speed } = wind(heading(240), moving(18, 240), apparent(40, 30))!;
    expect(from).toBeCloseTo(315.51602, 5);
    expect(toKnots(speed)).toBeCloseTo(19.916626, 5);
    expect(Math.abs(from - 315)).toBeLessThan(3);
    expect(Math.abs(toKnots(speed) - 20)).toBeLessThan(0.1);
  });

  /** USCG exam item [F]: from 051°, 24.0 kn; computed 51.109474°, 24.145854 kn [C]. */
  test('course 180°, 22 kn, apparent 70° to port, 20 kn', () => {
    const { from, speed } = wind(heading(180), moving(22, 180), apparent(-70, 20))!;
    expect(from).toBeCloseTo(51.109474, 5);
    expect(toKnots(speed)).toBeCloseTo(24.145854, 5);
  });

  test('at anchor a blank course means that she lies still; under way it means that nobody knows', () => {
    expect(wind(heading(200), moving(0.2), apparent(10, 12))?.from).toBeCloseTo(210, 9);
    expect(wind(heading(200), moving(4), apparent(10, 12))).toBeUndefined();
  });

  test('needs all three', () => {
    expect(wind(moving(0, 0), apparent(10, 12))).toBeUndefined();
    expect(wind(heading(200), apparent(10, 12))).toBeUndefined();
    expect(wind(heading(200), moving(0, 0))).toBeUndefined();
  });

  test('a calm has no direction', () => {
    expect(wind(heading(200), moving(0, 0), apparent(10, 0))).toBeUndefined();
  });

  test('is as old as the oldest of what it is made of', () => {
    const rig = new Rig();
    rig.hear(START, heading(0));
    rig.hear(START + 2, moving(0, 0));
    rig.hear(START + 3, apparent(20, 10));
    expect(rig.view(START + 4).windGround).toMatchObject({ at: START, age: 4 });
    expect(rig.view(START + 6).windGround).toBeUndefined();
    expect(rig.view(START + 6).windApparent).toBeDefined();
  });
});

describe('ground wind as an instrument states it', () => {
  const stated = say('WIMWD', { kind: 'wind-ground', from: 328.2, speed: fromKnots(11.2) });

  test('is taken before the computed one', () => {
    expect(wind(heading(0), moving(0, 0), apparent(20, 10), stated)?.from).toBe(328.2);
  });

  test('magnetic only: with the variation', () => {
    const magnetic = say('WIMWD', { kind: 'wind-ground', fromMagnetic: 326.8, speed: 5 });
    expect(wind(magnetic)).toBeUndefined();
    expect(wind(say('HCHDG', { kind: 'variation', variation: 1.4 }), magnetic)?.from).toBeCloseTo(328.2, 9);
  });

  test('a direction without speed, or a speed without direction, is none', () => {
    expect(wind(say('WIMWD', { kind: 'wind-ground', from: 10 }))).toBeUndefined();
    expect(wind(say('WIMWD', { kind: 'wind-ground', speed: 10 }))).toBeUndefined();
  });

  test('when it falls silent the computed one serves', () => {
    const rig = new Rig();
    rig.hear(START, stated);
    for (let i = 0; i < 12; i++) {
      rig.hear(START + i, heading(0));
      rig.hear(START + i, moving(0, 0));
      rig.hear(START + i, apparent(20, 10));
    }
    expect(rig.view().windGround?.value.from).toBeCloseTo(20, 9);
    expect(rig.view().ages.wind).toBe(0);
  });
});

test('the wind that an instrument reckons over the water is not taken for ground wind', () => {
  const rig = new Rig();
  rig.hear(START, say('WIMWV', { kind: 'wind-theoretical', angle: 30, speed: 8 }));
  expect(rig.view().ages.wind).toBeUndefined();
});
