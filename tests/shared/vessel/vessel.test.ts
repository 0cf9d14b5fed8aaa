import { describe, expect, test } from 'vitest';
import type { Sentence } from '../../../shared/sentences/decoded.ts';
import { LIMITS } from '../../../shared/vessel/limits.ts';
import type { Quantity, VesselView } from '../../../shared/vessel/view.ts';
import { accepted } from '../sentences/read.ts';
import { fix, Rig, START, say } from './help.ts';

const north = say('HEHDT', { kind: 'heading', heading: 350 });
const variation = say('HCHDG', { kind: 'variation', variation: 12 });

describe('each quantity', () => {
  const table: [Quantity, Sentence, (view: VesselView) => unknown, unknown][] = [
    ['motion', say('GPVTG', { kind: 'motion', sog: 2, cog: 30 }), (view) => view.cog?.value, 30],
    ['heading', north, (view) => view.heading?.value, 350],
    [
      'wind',
      say('WIMWV', { kind: 'wind-apparent', angle: -40, speed: 7 }),
      (view) => view.windApparent?.value,
      { angle: -40, speed: 7 },
    ],
    [
      'depth',
      say('SDDBS', { kind: 'depth', depth: 6, reference: 'surface' }),
      (view) => view.depth?.value.surface,
      6,
    ],
    [
      'water-speed',
      say('VWVHW', { kind: 'water-speed', ahead: 1 }),
      (view) => view.waterSpeed?.value,
      { ahead: 1 },
    ],
    [
      'stream',
      say('IIVDR', { kind: 'stream', set: 10, drift: 0.6 }),
      (view) => view.stream?.value,
      { set: 10, drift: 0.6 },
    ],
    [
      'water-temperature',
      say('IIMTW', { kind: 'water-temperature', celsius: 17.9 }),
      (view) => view.waterTemperature?.value,
      17.9,
    ],
  ];

  test.each(table)(
    '%s is shown with its source until its limit, then only its age',
    (quantity, sentence, pick, value) => {
      const rig = new Rig();
      expect(rig.view().ages).toEqual({});
      rig.hear(START, sentence);
      const limit = LIMITS[quantity];
      expect(pick(rig.view(START + limit))).toEqual(value);
      expect(rig.view().sources[quantity]).toBe(`udp1:${sentence.talker}${sentence.id}`);
      expect(pick(rig.view(START + limit + 0.1))).toBeUndefined();
      expect(rig.view().sources[quantity]).toBeUndefined();
      expect(rig.view().ages[quantity]).toBeCloseTo(limit + 0.1, 6);
    },
  );

  test.each(table)('%s is not refreshed by its sentence with blanks', (quantity, sentence) => {
    const rig = new Rig();
    rig.hear(START, sentence);
    rig.hear(START + 3, { ...sentence, observations: [] });
    expect(rig.view().ages[quantity]).toBe(3);
  });
});

describe('motion over the ground', () => {
  test('a magnetic course becomes a true one with the variation', () => {
    const rig = new Rig();
    rig.hear(START, say('GPVTG', { kind: 'motion', sog: 2, cogMagnetic: 355 }));
    expect(rig.view().sog?.value).toBe(2);
    expect(rig.view().cog).toBeUndefined();
    rig.hear(START, variation);
    expect(rig.view().cog?.value).toBe(7);
  });

  test('a blank course beside a speed is unknown now, whatever it was', () => {
    const rig = new Rig();
    rig.hear(START, say('GPVTG', { kind: 'motion', sog: 2, cog: 30 }));
    rig.hear(START + 1, say('GPVTG', { kind: 'motion', sog: 0.1 }));
    expect(rig.view().sog?.value).toBe(0.1);
    expect(rig.view().cog).toBeUndefined();
  });

  test("a log's speeds ahead and to starboard become a course with the heading", () => {
    const rig = new Rig();
    rig.hear(START, say('VMVBW', { kind: 'ground-speed', ahead: 3, athwart: 3 }));
    expect(rig.view().sog?.value).toBeCloseTo(4.2426, 4);
    expect(rig.view().cog).toBeUndefined();
    rig.hear(START, north);
    expect(rig.view().cog?.value).toBeCloseTo(35, 9);
  });

  test('one that does not tell the drift sideways is no course over ground', () => {
    const rig = new Rig();
    rig.hear(START, say('VMVBW', { kind: 'ground-speed', ahead: 3 }));
    expect(rig.view().ages.motion).toBeUndefined();
  });

  test('a speed over ground from a frozen receiver is old, also in a sentence without time', () => {
    const rig = new Rig();
    const vtg = say('GPVTG', { kind: 'motion', sog: 0, cog: 0 });
    for (let i = 0; i < 60; i++) {
      rig.hear(START + i, fix('GPGGA', START + Math.min(i, 20)));
      rig.hear(START + i, vtg);
    }
    expect(rig.view().sog).toBeUndefined();
    expect(rig.view().ages.motion).toBeGreaterThan(30);
  });

  test('a sentence with speed goes before one with a course alone', () => {
    const rig = new Rig();
    for (let i = 0; i < 20; i++) {
      rig.hear(START + i, say('GPRMC', { kind: 'motion', cog: 10 }));
      rig.hear(START + i, say('GPVTG', { kind: 'motion', sog: 1, cog: 11 }));
    }
    expect(rig.view().sources.motion).toBe('udp1:GPVTG');
  });
});

test('a magnetic set needs the variation', () => {
  const rig = new Rig();
  rig.hear(START, say('IIVDR', { kind: 'stream', setMagnetic: 355, drift: 1 }));
  expect(rig.view().stream).toBeUndefined();
  expect(rig.view().ages.stream).toBe(0);
  rig.hear(START, variation);
  expect(rig.view().stream?.value).toEqual({ set: 7, drift: 1 });
});

/** gpsd NMEA.adoc [F]: −7.1 kn ahead, 0.1 kn to starboard, ground speed invalid. */
test('speed through the water along both axes', () => {
  const rig = new Rig();
  rig.hear(START, accepted('$VMVBW,-7.1,0.1,A,,,V,,V,,V*65'));
  expect(rig.view().waterSpeed?.value.ahead).toBeCloseTo(-3.6526, 4);
  expect(rig.view().waterSpeed?.value.athwart).toBeCloseTo(0.0514, 4);
  expect(rig.view().sog).toBeUndefined();
});

describe('wind', () => {
  test('is as young as the younger of what tells it', () => {
    const rig = new Rig();
    rig.hear(START, say('WIMWD', { kind: 'wind-ground', from: 100, speed: 5 }));
    rig.hear(START + 4, say('WIMWV', { kind: 'wind-apparent', angle: 0, speed: 5 }));
    expect(rig.view(START + 5).ages.wind).toBe(1);
    rig.hear(START + 6, say('WIMWD', { kind: 'wind-ground', from: 100, speed: 5 }));
    expect(rig.view(START + 7).ages.wind).toBe(1);
    expect(rig.view().sources.wind).toBe('udp1:WIMWV');
    rig.hear(START + 16, say('WIMWD', { kind: 'wind-ground', from: 100, speed: 5 }));
    expect(rig.view().sources.wind).toBe('udp1:WIMWD');
  });
});

test('every change of source is said in words', () => {
  const rig = new Rig();
  const feed = (from: number, to: number, ...sentences: Sentence[]) => {
    for (let i = from; i < to; i++) for (const sentence of sentences) rig.hear(START + i, sentence);
  };
  const dbt = say('SDDBT', { kind: 'depth', depth: 5, reference: 'transducer' });
  const dpt = say('SDDPT', { kind: 'depth', depth: 5, reference: 'transducer', offset: 0.5 });
  feed(0, 20, dbt, dpt);
  feed(20, 40, dbt);
  expect(rig.notes).toEqual([
    'depth now from SD DPT on udp1; it is better than SD DBT on udp1',
    'depth now from SD DBT on udp1; SD DPT on udp1 has given nothing new for 6 s',
  ]);
});
