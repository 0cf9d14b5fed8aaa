import { describe, expect, test } from 'vitest';
import { type Duty, duties, type Said } from '../../../server/listen/duties.ts';
import type { VesselView } from '../../../shared/vessel/view.ts';

const known = { at: 0, age: 0, source: 'udp1:GPRMC' };
const antenna = { ...known, value: { lat: 43, lon: 7 } };
const sog = { ...known, value: 0.3 };
const heading = { ...known, value: 90, sigma: 2, from: 'true' as const };
const windApparent = { ...known, value: { angle: 10, speed: 5 } };
const windGround = { ...known, value: { from: 90, speed: 5 } };
const waterSpeed = { ...known, value: { ahead: 0.4 } };

const judge = (view: Partial<VesselView>, said: Said[] = []): Record<string, Duty> =>
  Object.fromEntries(
    duties({ view: { at: 0, ages: {}, sources: {}, ...view }, said: new Set(said) }).map((duty) => [
      duty.duty,
      duty,
    ]),
  );

describe('which duty is served, and what is missing', () => {
  test.each<[string, string, Partial<VesselView>, Said[], Duty['state'], string, string]>([
    ['nothing', 'circle and drag', {}, [], 'missing', 'no anchor watch is possible', 'GGA, RMC, GNS or GLL'],
    ['no fix', 'circle and drag', {}, ['no-position'], 'missing', 'has no position to give', 'sky'],
    [
      'a fix',
      'circle and drag',
      { antenna, sources: { position: 'udp1:GPRMC' } },
      [],
      'served',
      'from udp1:GPRMC',
      '',
    ],
    [
      'a doubtful fix',
      'circle and drag',
      { antenna, positionDoubt: { reason: 'it jumps', since: 0 } },
      [],
      'rough',
      'it jumps',
      'sky',
    ],
    [
      'no heading',
      'roller, lead',
      { antenna },
      [],
      'missing',
      'no heading: lead and roller position will be rough',
      'HDG, HDT, HDM or THS',
    ],
    [
      'magnetic before the first fix',
      'roller, lead',
      {},
      ['heading-magnetic'],
      'rough',
      'magnetic heading only',
      'as soon as',
    ],
    ['heading', 'roller, lead', { heading }, [], 'served', 'heading', ''],
    ['no wind', 'wind alarms', {}, [], 'missing', 'no alarm when it rises or shifts', 'MWV'],
    [
      'apparent wind without heading',
      'wind alarms',
      { windApparent },
      [],
      'rough',
      'a shift is not',
      'needs a heading',
    ],
    [
      'apparent wind with heading',
      'wind alarms',
      { windApparent, heading },
      [],
      'rough',
      'a shift is not',
      'speed over ground',
    ],
    ['wind over ground', 'wind alarms', { windGround }, [], 'served', 'wind', ''],
    ['no depth', 'depth alarms', {}, [], 'missing', 'no alarm when it shoals', 'DPT'],
    [
      'depth of unknown reference',
      'depth alarms',
      { depth: { ...known, value: { measured: 5 } } },
      [],
      'rough',
      'below the transducer only',
      'boat.sounder.belowWaterline',
    ],
    [
      'depth',
      'depth alarms',
      { depth: { ...known, value: { measured: 5, surface: 5.6 } } },
      [],
      'served',
      'depth',
      '',
    ],
    ['no motion', 'motion', {}, [], 'missing', 'no speed over ground', 'RMC or VTG'],
    ['motion', 'motion', { sog }, [], 'served', 'speed and course', ''],
    ['no log', 'tidal stream', {}, [], 'missing', 'no speed through water', 'VHW'],
    ['log alone', 'tidal stream', { waterSpeed }, [], 'rough', 'need heading and speed over ground', 'see'],
    ['log, heading, motion', 'tidal stream', { waterSpeed, heading, sog }, [], 'served', 'worked out', ''],
    [
      'stream',
      'tidal stream',
      { stream: { ...known, value: { set: 1, drift: 1 } } },
      [],
      'served',
      'set and drift',
      '',
    ],
    ['no AIS', 'neighbours', {}, [], 'missing', 'other vessels are not seen', '38400'],
    ['AIS', 'neighbours', {}, ['ais-fragment'], 'served', 'AIS', ''],
    ['no UTC', 'time', {}, [], 'missing', 'no UTC', 'ZDA'],
    ['UTC', 'time', { clockOffset: -2 }, [], 'served', 'agrees', ''],
    ['a slow clock', 'time', { clockOffset: 90 }, [], 'rough', '90 s behind', 'set it'],
    ['a fast clock', 'time', { clockOffset: -90 }, [], 'rough', '90 s ahead of', 'set it'],
  ])('%s: %s', (_, duty, view, said, state, text, cure) => {
    const found = judge(view, said)[duty]!;
    expect(found.state).toBe(state);
    expect(found.text).toContain(text);
    expect(found.cure ?? '').toContain(cure);
    expect(found.cure === undefined).toBe(state === 'served');
  });
});
