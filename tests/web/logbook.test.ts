import { describe, expect, test } from 'vitest';
import { distanceBearing } from '../../shared/earth/geodesic.ts';
import type { Night, NightAlert, Sample } from '../../shared/logbook/night.ts';
import { pairs, sameAlerts } from '../../web/parts/logbook/compare.ts';
import { loudAt } from '../../web/parts/logbook/loud.ts';
import {
  alertsAt,
  away,
  indexAt,
  markAt,
  pastState,
  sampleAt,
  trackUntil,
} from '../../web/parts/logbook/pastState.ts';
import { drawStrips, ticks } from '../../web/parts/logbook/strips.ts';
import { isPast } from '../../web/past.ts';
import { calmState } from '../browser/fakeState.ts';

const T0 = 1_700_000_000;

const alert = (id: string, kind: NightAlert['kind'], from: number, over?: number): NightAlert => ({
  id,
  kind,
  priority: 'alarm',
  text: id,
  from,
  changes: [
    { at: from, state: 'active-unacknowledged', priority: 'alarm', text: id },
    ...(over === undefined
      ? []
      : [{ at: over, state: 'normal' as const, priority: 'alarm' as const, text: id }]),
  ],
});

function night(strips: Sample[]): Night {
  const { boat, cable, watch } = calmState(T0);
  return {
    summary: {
      id: 'x',
      origin: 'watch',
      from: T0,
      to: T0 + 600,
      upTo: T0 + 600,
      boat: boat.name,
      mark: { lat: -16.5, lon: 179.9999, sigma: 3, at: T0, by: 'Ann', how: 'here' },
      marks: 1,
      alerts: { alarms: 0, warnings: 0, cautions: 0, kinds: {} },
      gaps: { count: 0, seconds: {} },
      sentences: 0,
      rejected: { checksum: 0, malformed: 0, unknown: 0 },
      versions: [],
    },
    alerts: [],
    story: [],
    step: 30,
    strips,
    settings: { boat, cable, limits: watch.limits },
    gaps: [],
    checksums: [],
  };
}

const every30 = (count: number, of: (i: number) => Partial<Sample> = () => ({})): Sample[] =>
  Array.from({ length: count }, (_, i) => ({
    at: T0 + 30 * i,
    lat: -16.5002,
    lon: 179.9999,
    distance: 22,
    ...of(i),
  }));

describe('a moment of a night by its samples', () => {
  test('the sample before it, but none across a gap', () => {
    const made = night([...every30(3), { at: T0 + 300, lat: -16.5, lon: 179.9999 }]);
    expect([T0 - 1, T0, T0 + 59, T0 + 299, T0 + 900].map((at) => indexAt(made.strips, at))).toEqual([
      -1, 0, 1, 2, 3,
    ]);
    expect(sampleAt(made, T0 + 74)?.at).toBe(T0 + 60);
    expect(sampleAt(made, T0 + 200)).toBeUndefined();
    expect(pastState(made, T0 + 200).vessel.roller).toBeUndefined();
    expect(pastState(made, T0 + 200).watch.distance).toBeUndefined();
    expect(trackUntil(made, T0 + 60)).toHaveLength(3);
  });

  test('in a gap she is drawn nowhere, however young the sample before it is', () => {
    const made = night(every30(4, () => ({ windSpeed: 8, windFrom: 200 })));
    made.gaps = [
      { kind: 'position', from: T0 + 40, to: T0 + 50 },
      { kind: 'silence', from: T0 + 70 },
    ];
    const { vessel, watch } = pastState(made, T0 + 45);
    expect(vessel.roller).toBeUndefined();
    expect(watch.distance).toBeUndefined();
    expect(vessel.windGround?.value.speed).toBe(8);
    expect(pastState(made, T0 + 50).vessel.roller).toBeDefined();
    expect(pastState(made, T0 + 75).vessel.windGround).toBeUndefined();
  });

  test('is marked as past, which no state that the boat tells is', () => {
    expect(isPast(pastState(night(every30(2)), T0))).toBe(true);
    expect(isPast(calmState(T0))).toBe(false);
  });

  test('a point so many metres away is there, across the 180th meridian too', () => {
    const from = { lat: -16.5, lon: 179.9999 };
    for (const bearing of [0, 90, 215]) {
      const found = distanceBearing(from, away(from, 60, bearing));
      expect(found.distance).toBeCloseTo(60, 1);
      expect(found.bearing).toBeCloseTo(bearing, 1);
    }
  });

  test('a mark that was set again is where the sample saw it', () => {
    const made = night(every30(1, () => ({ bearing: 0 })));
    made.summary.marks = 2;
    const { lat, lon } = made.strips[0]!;
    const found = distanceBearing({ lat: lat!, lon: lon! }, markAt(made, made.strips[0]));
    expect(found.distance).toBeCloseTo(22, 2);
    made.summary.marks = 1;
    expect(markAt(made, made.strips[0])).toBe(made.summary.mark);
  });

  test('what stood on the alert list then', () => {
    const alerts = [alert('drag.1', 'drag', T0 + 100, T0 + 200), alert('shoal.2', 'shoal', T0 + 150)];
    const ids = (at: number) => alertsAt(alerts, at).map(({ id }) => id);
    expect([T0, T0 + 100, T0 + 160, T0 + 200].map(ids)).toEqual([
      [],
      ['drag.1'],
      ['drag.1', 'shoal.2'],
      ['shoal.2'],
    ]);
  });
});

describe('strips', () => {
  test('a single extreme among many samples on one pixel is drawn; a gap breaks the line', () => {
    const strips = every30(1000, (i) => ({ distanceMost: i === 517 ? 90 : 20 })).filter(
      (_, i) => i < 700 || i > 720,
    );
    const made = night(strips);
    made.summary.to = T0 + 30_000;
    const [distance] = drawStrips(made, 100, 50);
    expect(distance).toMatchObject({ key: 'distance', most: 90 });
    expect(distance!.line).toMatch(/L[\d.]+ 0\.0/);
    expect(distance!.line.match(/M/g)).toHaveLength(2);
    expect(drawStrips(night([{ at: T0 }]), 100, 50)).toEqual([]);
  });

  test('ticks are round in the zone of the reader', () => {
    const found = ticks(T0, T0 + 9 * 3600, 360, 5.5 * 3600);
    expect(found.length).toBeGreaterThan(2);
    expect(found.length).toBeLessThanOrEqual(6);
    expect(found.every((at) => (at + 5.5 * 3600) % 3600 === 0)).toBe(true);
  });
});

describe('a caution that grew into an alarm', () => {
  test('is shown when it became one', () => {
    const grown = alert('drag.1', 'drag', 300);
    grown.from = 100;
    grown.changes.unshift({ at: 100, state: 'active-acknowledged', priority: 'caution', text: '' });
    expect(loudAt(grown)).toBe(300);
    expect(loudAt(alert('drag.2', 'drag', 50))).toBe(50);
    expect(sameAlerts([grown], [alert('drag.1', 'drag', 300)])).toBe(true);
  });
});

describe('two runs beside each other', () => {
  test('the first of a kind belongs to the first of that kind; what only one has stands alone; by time', () => {
    const was = [alert('drag.1', 'drag', 100), alert('drag.2', 'drag', 300)];
    const would = [alert('drag.7', 'drag', 90), alert('shoal.8', 'shoal', 50)];
    expect(pairs(was, would).map((pair) => [pair.was?.id, pair.would?.id])).toEqual([
      [undefined, 'shoal.8'],
      ['drag.1', 'drag.7'],
      ['drag.2', undefined],
    ]);
    expect(sameAlerts(was, was)).toBe(true);
    expect(sameAlerts(was, would)).toBe(false);
    expect(sameAlerts([], [{ ...alert('c', 'clock', 1), priority: 'caution' }])).toBe(true);
  });
});
