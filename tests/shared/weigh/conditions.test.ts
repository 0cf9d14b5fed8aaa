import { describe, expect, test } from 'vitest';
import type { Known } from '../../../shared/quantities/estimate.ts';
import type { CheckedQuantity } from '../../../shared/weigh/check-view.ts';
import { type Conditions, conditions } from '../../../shared/weigh/conditions.ts';
import { MARK, START } from './help.ts';

/** What the departure check says of invented conditions. Its limits are common practice: no physics is proved here. */
const known = <T>(value: T): Known<T> => ({ value, at: START, age: 0, source: 'test' });
const KNOT = 1852 / 3600;

/** A point every half minute over two hours, with the wind (kn) and depth (m) of then. */
const track = (wind: (age: number) => number, depth = (_age: number): number => 6) =>
  Array.from({ length: 240 }, (_, i) => {
    const age = 7200 - 30 * i;
    return { at: START - age, wind: wind(age) * KNOT, depth: depth(age) };
  });

const calm = (): Conditions => ({
  vessel: {
    at: START,
    roller: { ...known(MARK), sigma: 1 },
    heading: { ...known(70), sigma: 3, from: 'true' },
    windGround: known({ from: 230, speed: 12 * KNOT }),
    depth: known({ measured: 5, surface: 6, keel: 4.1 }),
    ages: {},
    sources: {},
  },
  track: track(() => 12),
  stream: { set: { value: 310, sigma: 8 }, drift: { value: 0.6 * KNOT, sigma: 0.05 } },
  lieTo: 'wind',
  divergence: 20,
  distance: { value: 31, sigma: 3 },
  limits: {},
  neighbours: [{ name: 'Moss Lantern', distance: 62 }],
});

const said = (given: Conditions, item: CheckedQuantity) => {
  const { state, text } = conditions(given).find((one) => one.item === item)!;
  return `${state}: ${text}`;
};

describe('what hawse measures before weighing', () => {
  test('fair conditions are all good, each in a sentence', () => {
    expect(conditions(calm()).map(({ state, text }) => `${state}: ${text}`)).toEqual([
      'good: Wind 12 kn from 230°, steady over the hour.',
      'good: Stream 0.6 kn to 310°; time to slack water not known.',
      'good: 4.1 m under the keel here; on the way out look at the chart.',
      'good: Nearest vessel known: Moss Lantern, 62 m off. Not all send AIS: look round.',
      'good: Roller to anchor known to ± 6 m.',
      'good: She lies to the wind, 31 m from the anchor.',
    ]);
  });

  test('with nothing measured everything is unknown, and nothing is called good', () => {
    const nothing: Conditions = {
      vessel: { at: START, ages: {}, sources: {} },
      track: [],
      limits: {},
      neighbours: [],
    };
    expect(conditions(nothing).map(({ state }) => state)).toEqual(Array(6).fill('unknown'));
  });

  test('wind: freshening by 4 kn in the hour, or 20 kn, is to be looked at; so is the crew’s own limit', () => {
    const given = calm();
    given.track = track((age) => (age > 2000 ? 9 : 14));
    expect(said(given, 'wind')).toBe('look: Wind 14 kn from 230°, freshening, 9 kn an hour ago.');
    given.track = track((age) => (age > 2000 ? 15 : 10));
    expect(said(given, 'wind')).toBe('good: Wind 10 kn from 230°, easing, 15 kn an hour ago.');
    given.track = track(() => 21);
    expect(said(given, 'wind')).toMatch(/^look/);
    given.track = track(() => 16);
    expect(said(given, 'wind')).toMatch(/^good/);
    given.limits.windAbove = 15 * KNOT;
    expect(said(given, 'wind')).toMatch(/^look/);
    given.track = [];
    expect(said(given, 'wind')).toBe('good: Wind 12 kn from 230°, trend not known yet.');
  });

  test('stream: 1 kn, or one that fights the wind, is to be looked at; slack water is told with its spread', () => {
    const given = calm();
    given.divergence = -120;
    given.slack = { value: START + 2400, sigma: 450 };
    expect(said(given, 'stream')).toBe(
      'look: Stream 0.6 kn to 310°, pushing 120° away from the wind; slack water in 40 min (± 15 min).',
    );
    given.divergence = 0;
    given.stream!.drift.value = 1.1 * KNOT;
    expect(said(given, 'stream')).toMatch(/^look: Stream 1\.1 kn/);
    given.stream!.drift.value = 0.05;
    expect(said(given, 'stream')).toBe('good: Hardly any stream.');
    delete given.stream;
    given.streamUnknown = 'no log';
    expect(said(given, 'stream')).toBe(
      'unknown: Stream not known: no log; slack water in 40 min (± 15 min).',
    );
  });

  test('depth: what the water takes in another hour counts; an unknown keel is to be looked at', () => {
    const given = calm();
    given.track = track(
      () => 12,
      (age) => 6 + 0.6 * (age / 3600),
    );
    given.vessel.depth!.value.keel = 0.9;
    expect(said(given, 'depth')).toBe(
      'look: 0.9 m under the keel here, 0.6 m less than an hour ago; on the way out look at the chart.',
    );
    given.vessel.depth = known({ measured: 5 });
    expect(said(given, 'depth')).toMatch(/^look: 5\.0 m below the sounder.*not known/);
  });

  test('neighbours: over the anchor, in the circle, near or dragging are named; others need no word', () => {
    const given = calm();
    given.neighbours = [
      { name: 'Grey Withy', distance: 44, overOurAnchor: true, inCircle: true },
      { name: 'Moss Lantern', distance: 12 },
      { name: 'Ostrava Loam', distance: 90, dragging: true },
      { name: 'Tern', distance: 60, inCircle: true },
      { name: 'Far', distance: 300 },
    ];
    expect(said(given, 'neighbours')).toBe(
      'look: Moss Lantern is 12 m off; Grey Withy lies over our anchor; Tern lies in our circle; Ostrava Loam drags.',
    );
  });

  test('a doubtful position, no heading, a mark that is coarse and an anchor that has moved are told', () => {
    const given = calm();
    given.distance = { value: 31, sigma: 9 };
    expect(said(given, 'position')).toBe('look: Roller to anchor known to ± 18 m.');
    delete given.vessel.heading;
    expect(said(given, 'position')).toMatch(/^look: .*no heading/);
    given.vessel.positionDoubt = { reason: 'it jumps', since: START };
    expect(said(given, 'position')).toBe('look: Position doubtful: it jumps.');
    given.anchor = { moved: 8, probability: 0.7 };
    expect(said(given, 'lie')).toBe('look: The anchor has probably moved 8.0 m: the mark may be wrong.');
  });

  test('apparent wind stands in for that over ground, and says so', () => {
    const given = calm();
    delete given.vessel.windGround;
    given.vessel.windApparent = known({ angle: 20, speed: 9 * KNOT });
    given.track = [];
    expect(said(given, 'wind')).toBe('good: Wind 9 kn (apparent), trend not known yet.');
  });

  test('slack water hours away is told in hours, and without a known stream too', () => {
    const given = calm();
    given.slack = { value: START + 9000, sigma: 900 };
    expect(said(given, 'stream')).toMatch(/slack water in 2\.5 h \(± 30 min\)/);
    delete given.stream;
    expect(said(given, 'stream')).toBe('unknown: Stream not known; slack water in 2.5 h (± 30 min).');
  });

  test('depth: rising water is good; the crew’s own limit and an unknown keel are to be looked at', () => {
    const given = calm();
    given.track = track(
      () => 12,
      (age) => 6 - 0.6 * (age / 3600),
    );
    expect(said(given, 'depth')).toBe(
      'good: 4.1 m under the keel here, 0.6 m more than an hour ago; on the way out look at the chart.',
    );
    given.limits.depthBelow = 6;
    expect(said(given, 'depth')).toMatch(/^good/);
    given.limits.depthBelow = 6.1;
    expect(said(given, 'depth')).toMatch(/^look/);
    given.vessel.depth = known({ measured: 5, surface: 6, keel: 0.49 });
    expect(said(given, 'depth')).toMatch(/^look/);
    given.limits = {};
    expect(said(given, 'depth')).toMatch(/^look/);
    given.vessel.depth = known({ measured: 5, surface: 6, keel: 0.51 });
    expect(said(given, 'depth')).toMatch(/^good/);
    given.limits = { depthBelow: 6.1 };
    // A limit of the surface is not judged by a depth below the sounder.
    given.vessel.depth = known({ measured: 5, keel: 4 });
    expect(said(given, 'depth')).toMatch(/^good/);
    given.vessel.depth = known({ measured: 5, surface: 6 });
    expect(said(given, 'depth')).toMatch(/^look: 6\.0 m deep, .*not known/);
  });

  test('a trend needs five points of both hours', () => {
    const points = (n: number) =>
      [0, 3600].flatMap((age) =>
        Array.from({ length: n }, (_, i) => ({
          at: START - age - 450 - i,
          wind: age ? 5 * KNOT : 12 * KNOT,
        })),
      );
    const given = calm();
    given.track = points(4);
    expect(said(given, 'wind')).toMatch(/trend not known/);
    given.track = points(5);
    expect(said(given, 'wind')).toMatch(/freshening, 5 kn an hour ago/);
  });

  test('neighbours without a distance come last; one in the circle or near is named all the same', () => {
    const given = calm();
    given.neighbours = [{ name: 'Tern' }, { name: 'Far', distance: 300 }];
    expect(said(given, 'neighbours')).toBe(
      'good: Nearest vessel known: Far, 300 m off. Not all send AIS: look round.',
    );
    given.neighbours = [
      { name: 'Far', distance: 300 },
      { name: 'Tern', inCircle: true },
    ];
    expect(said(given, 'neighbours')).toBe('look: Tern lies in our circle.');
    given.neighbours = [{ name: 'Tern', distance: 20 }];
    expect(said(given, 'neighbours')).toMatch(/^good/);
    given.neighbours = [{ name: 'Tern', distance: 19.9 }];
    expect(said(given, 'neighbours')).toMatch(/^look/);
  });

  test('position: six metres of sigma are coarse; without a mark it is the fix’s own', () => {
    const given = calm();
    given.distance = { value: 31, sigma: 6 };
    expect(said(given, 'position')).toMatch(/^good/);
    given.distance = { value: 31, sigma: 6.1 };
    expect(said(given, 'position')).toMatch(/^look/);
    delete given.distance;
    expect(said(given, 'position')).toBe('good: Roller to anchor known to ± 2 m.');
    given.anchor = { moved: 8, probability: 0.5 };
    expect(said(given, 'lie')).toBe('good: She lies to the wind.');
  });
});
