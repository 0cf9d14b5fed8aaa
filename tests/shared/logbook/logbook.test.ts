import { describe, expect, test } from 'vitest';
import { commonBoat } from '../../../server/config/defaults.ts';
import { toSettings } from '../../../server/config/settings.ts';
import { destination } from '../../../shared/earth/geodesic.ts';
import { createEngine, type EngineState, step } from '../../../shared/engine.ts';
import type { AlertEvent } from '../../../shared/events.ts';
import type { Input } from '../../../shared/input.ts';
import { countAlerts, enterAlert } from '../../../shared/logbook/alerts.ts';
import { type Book, follow } from '../../../shared/logbook/book.ts';
import type { NightAlert, NightSummary, Sample } from '../../../shared/logbook/night.ts';
import { nameNear, placesNear } from '../../../shared/logbook/places.ts';
import { withChecksum } from '../../../shared/sentences/checksum.ts';

/** An invented boat 30 m south of her mark. */
const T0 = Date.UTC(2026, 10, 25, 20, 0, 0) / 1000;
const MARK = { lat: -36, lon: 163.5 };

interface Heard {
  depth?: boolean;
  fix?: boolean;
  wind?: number;
}

/** Steps one second after the other; what is heard is asked for each. */
function night(seconds: number, heard: (second: number) => Heard | undefined) {
  let engine: EngineState = createEngine({ ...toSettings(commonBoat()), circle: { margin: 6, radius: 60 } });
  const book: Book = {};
  const samples: Sample[] = [];
  const take = (input: Input) => {
    const done = step(engine, input);
    engine = done.state;
    const turned = follow(book, engine, input, done.events, () => ({
      id: 'x',
      origin: 'watch',
      version: 'test',
    }));
    if (turned.sample) samples.push(turned.sample);
  };
  for (let second = 0; second < seconds; second++) {
    const at = T0 + second;
    const clock = new Date(at * 1000).toISOString().slice(11, 19).replaceAll(':', '');
    const now = heard(second);
    const line = (body: string, after: number) =>
      take({ kind: 'line', at: at + after, source: 'bus', text: withChecksum(body) });
    if (now) {
      const minutes = (60 * (30 + 9)) / 110_962;
      if (now.fix !== false)
        line(
          `GPRMC,${clock}.00,A,36${minutes.toFixed(5).padStart(8, '0')},S,16330.00000,E,0.0,,251126,,,A`,
          0.1,
        );
      line('HEHDT,0.0,T', 0.2);
      if (now.depth !== false) line('SDDPT,7.0,0.5', 0.3);
      line(`WIMWV,0.0,R,${(now.wind ?? 5).toFixed(1)},M,A`, 0.4);
    }
    if (second === 20) take({ kind: 'command', at: at + 0.5, by: 'Ann', command: { do: 'mark', how: MARK } });
    if (second === seconds - 5) take({ kind: 'command', at: at + 0.5, by: 'Ann', command: { do: 'aweigh' } });
    take({ kind: 'tick', at: at + 0.75 });
  }
  return { record: book.closed!.night, samples };
}

describe('the record of a night', () => {
  test('a sounder that falls silent is a gap from its last word to its next', () => {
    const { record, samples } = night(300, (second) => ({ depth: second < 60 || second >= 120 }));
    const depth = record.gaps.filter(({ kind }) => kind === 'depth');
    expect(depth).toHaveLength(1);
    expect(depth[0]!.from).toBeCloseTo(T0 + 59.3, 3);
    expect(depth[0]!.to).toBeGreaterThanOrEqual(T0 + 120);
    expect(depth[0]!.to).toBeLessThan(T0 + 122);
    // No sample of that time claims a depth.
    const dead = samples.filter(({ at }) => at > T0 + 72 && at < T0 + 120);
    expect(dead.length).toBeGreaterThan(0);
    expect(dead.map(({ depth }) => depth)).toEqual(dead.map(() => undefined));
    expect(record.gaps.filter(({ kind }) => kind !== 'depth')).toEqual([]);
  });

  test('a silent bus is a silence and a lost position; what never spoke is no gap', () => {
    const { record } = night(300, (second) => (second >= 100 && second < 160 ? undefined : { depth: false }));
    expect(record.gaps.map(({ kind }) => kind).sort()).toEqual(['heading', 'position', 'silence', 'wind']);
    const silence = record.gaps.find(({ kind }) => kind === 'silence')!;
    expect(silence).toMatchObject({ why: 'no sentence came on any input' });
    expect(silence.to! - silence.from).toBeCloseTo(60.7, 1);
  });

  test('one gust of one reading is the night’s strongest wind, and its sample tells it', () => {
    const { record, samples } = night(300, (second) => ({ wind: second === 133 ? 21 : 5 }));
    expect(record.summary.windMost!.speed).toBeCloseTo(21, 0);
    expect(Math.floor(record.summary.windMost!.at)).toBe(T0 + 133);
    const told = samples.filter(({ windMost }) => (windMost ?? 0) > 20);
    expect(told).toHaveLength(1);
    expect(told[0]!.at).toBeGreaterThan(T0 + 133);
    expect(told[0]!.at).toBeLessThanOrEqual(T0 + 151);
  });

  test('samples: every half minute of the clock while she lies there, not outside', () => {
    const { record, samples } = night(300, () => ({}));
    expect(record.summary).toMatchObject({ from: T0 + 20.5, to: T0 + 295.5, marks: 1 });
    expect(samples.map(({ at }) => Math.floor((at - T0) / 30))).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9]);
    expect(samples.at(-1)!.distance).toBeGreaterThan(25);
    expect(record.story.map(({ kind }) => kind).filter((kind) => kind !== 'note')).toEqual([
      'mark',
      'aweigh',
    ]);
  });
});

describe('alerts of a night', () => {
  const event = (more: Partial<AlertEvent>): AlertEvent => ({
    event: 'alert',
    t: 0,
    id: 'wind-speed.1',
    kind: 'wind-speed',
    priority: 'warning',
    state: 'active-unacknowledged',
    text: 'Wind.',
    ...more,
  });

  test('one alert has one entry with its whole life; it counts as what it was at its worst', () => {
    const alerts: NightAlert[] = [];
    enterAlert(alerts, event({ t: 1, value: 16, limit: 15 }));
    enterAlert(alerts, event({ t: 2, priority: 'alarm', text: 'Nobody answers.' }));
    enterAlert(alerts, event({ t: 3, state: 'active-acknowledged', by: 'Ann' }));
    enterAlert(alerts, event({ t: 9, state: 'normal' }));
    enterAlert(
      alerts,
      event({ t: 4, id: 'clock.1', kind: 'clock', priority: 'caution', state: 'active-acknowledged' }),
    );
    expect(alerts).toHaveLength(2);
    expect(alerts[0]).toMatchObject({
      priority: 'alarm',
      from: 1,
      to: 9,
      acknowledgedBy: 'Ann',
      acknowledgedAt: 3,
      limit: 15,
    });
    expect(alerts[0]!.changes.map(({ at }) => at)).toEqual([1, 2, 3, 9]);
    expect(alerts[1]!.acknowledgedBy).toBeUndefined();
    expect(countAlerts(alerts)).toEqual({
      alarms: 1,
      warnings: 0,
      cautions: 1,
      kinds: { 'wind-speed': 1, clock: 1 },
    });
  });
});

describe('places', () => {
  const summary = (
    id: string,
    from: number,
    mark: { lat: number; lon: number },
    more: Partial<NightSummary> = {},
  ): NightSummary => ({
    id,
    origin: 'watch',
    from,
    to: from + 1,
    upTo: from + 1,
    boat: 'Test Petrel',
    mark: { ...mark, sigma: 2, at: from, by: 'Ann', how: 'here' },
    marks: 1,
    alerts: { alarms: 0, warnings: 0, cautions: 0, kinds: {} },
    gaps: { count: 0, seconds: {} },
    sentences: 0,
    rejected: { checksum: 0, malformed: 0, unknown: 0 },
    versions: [],
    ...more,
  });
  const nights = [
    summary('a', 100, MARK, { place: 'Old name', depth: { least: 4, most: 6 }, notes: 'Sand.' }),
    summary('b', 300, destination(MARK, 90, 300), {
      depth: { least: 5, most: 8 },
      windMost: { at: 1, speed: 20, from: 0 },
    }),
    summary('c', 200, destination(MARK, 90, 5000), { place: 'Elsewhere' }),
    summary('d', 50, destination(MARK, 270, 100), {
      alerts: { alarms: 2, warnings: 0, cautions: 0, kinds: { drag: 1 } },
    }),
  ];

  test('earlier nights within 0.3 nmi, newest first, with depths, wind, notes and whether she dragged', () => {
    const [place, ...others] = placesNear(nights, destination(MARK, 0, 200));
    expect(others).toEqual([]);
    expect(place!.nights.map(({ id }) => id)).toEqual(['b', 'a', 'd']);
    expect(place).toMatchObject({ name: 'Old name', depth: { least: 4, most: 8 }, windMost: 20 });
    expect(place!.nights.map(({ dragged }) => dragged)).toEqual([false, false, true]);
    expect(place!.nights[1]!.notes).toBe('Sand.');
    expect(place!.distance).toBeCloseTo(Math.hypot(200, 300), 0);
  });

  test('a place over the antimeridian is one place, and a wider look finds others by distance', () => {
    const edge = [
      summary('e', 1, { lat: -16.5, lon: 179.9995 }),
      summary('f', 2, { lat: -16.5, lon: -179.9995 }),
    ];
    expect(placesNear(edge, { lat: -16.5, lon: 180 })[0]!.nights).toHaveLength(2);
    expect(placesNear(nights, MARK, 10_000).map(({ name }) => name)).toEqual(['Old name', 'Elsewhere']);
    expect(nameNear(nights, destination(MARK, 90, 4900))).toBe('Elsewhere');
    expect(nameNear(nights, destination(MARK, 180, 2000))).toBeUndefined();
  });
});
