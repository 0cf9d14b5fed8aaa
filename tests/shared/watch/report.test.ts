import { describe, expect, test } from 'vitest';
import type { Alert, AlertKind } from '../../../shared/alerts/alert.ts';
import type { WatchView } from '../../../shared/watch/view.ts';
import { lieEvent, report, watchView } from '../../../shared/watch/watch.ts';
import { Afloat, MARK, START, settings, type Told } from './help.ts';

const fix: Told = { fix: 31, heading: 180 };
const view = (boat: Afloat) => watchView(boat.state, boat.settings, boat.view());
const says = (boat: Afloat, alerts: Alert[] = []) => report(view(boat), boat.view(), alerts);
const alert = (
  kind: AlertKind,
  priority: Alert['priority'],
  text: string,
  more: Partial<Alert> = {},
): Alert => ({
  id: `${kind}.1`,
  kind,
  priority,
  state: 'active-unacknowledged',
  text,
  since: START,
  stateSince: START,
  ...more,
});

function watching(more = {}): Afloat {
  const boat = Afloat.watching(
    settings({ circle: { radius: 52, margin: 6 }, cable: { massPerMetre: 2.3, veered: 40 }, ...more }),
  );
  boat.pass(5, fix);
  return boat;
}

describe('the report', () => {
  test('watching: distance, circle, bearing', () => {
    expect(says(watching())).toBe('Watching. 31 m to the anchor of 52 m allowed, bearing 180°.');
  });

  test('no mark', () => {
    expect(says(new Afloat(settings()))).toBe('No mark: hawse is not watching. Let go marks the anchor.');
  });

  test('no position: never one, and one that has become too old', () => {
    const boat = Afloat.watching(settings());
    expect(says(boat)).toBe('No position yet: hawse cannot see whether she holds.');
    const lost = watching();
    lost.pass(12, { heading: 180 });
    expect(says(lost)).toBe('No position for 13 s: hawse cannot see whether she holds.');
    const text = 'No position for 13 s: hawse cannot see whether she holds.';
    expect(says(lost, [alert('position-lost', 'alarm', text)])).toBe(text);
  });

  test('no circle', () => {
    expect(says(watching({ circle: { margin: 6 }, cable: { massPerMetre: 2.3 } }))).toBe(
      'Watching. 31 m to the anchor, bearing 180°. No circle: tell hawse how much cable is veered. Drag is not judged yet: hawse does ' +
        'not know how much cable is out and learns from how she lies, 14 min more. Tell it the metres veered.',
    );
  });

  test('an uncertain mark: the distance with two sigma', () => {
    const boat = watching();
    boat.order({ do: 'mark', how: { ...MARK, sigma: 20 } });
    expect(says(boat)).toBe('Watching. 31 m (± 40 m) to the anchor of 52 m allowed, bearing 180°.');
  });

  test('weighing: where the anchor is off the bow, and what is not watched now', () => {
    const boat = watching();
    boat.pass(1, { fix: 31, heading: 200 });
    boat.order({ do: 'weigh' });
    expect(says(boat)).toBe(
      'Weighing. 31 m to the anchor, bearing 180°, 20° on the port bow. Not watched now: outside circle.',
    );
  });

  test('a doubtful position', () => {
    const boat = watching();
    boat.pass(1, { ...fix, doubt: 'it jumped' });
    expect(says(boat)).toBe(
      'Watching. 31 m to the anchor of 52 m allowed, bearing 180°. The position is doubtful.',
    );
  });

  test('alerts: the most urgent that holds comes first, others are counted; cautions and rectified ones are not told', () => {
    const alerts = [
      alert('heading-lost', 'caution', 'No heading.'),
      alert('deep', 'alarm', 'Deep.', { state: 'rectified-unacknowledged' }),
      alert('wind-speed', 'warning', 'Wind 26.0 kn.'),
      alert('shoal', 'alarm', 'Shoal: 2.1 m.', { state: 'active-acknowledged' }),
    ];
    expect(says(watching(), alerts)).toBe(
      'Shoal: 2.1 m. One more alert. Watching. 31 m to the anchor of 52 m allowed, bearing 180°.',
    );
    expect(says(watching(), alerts.slice(0, 2))).toBe(
      'Watching. 31 m to the anchor of 52 m allowed, bearing 180°.',
    );
    const outside = alert('outside-circle', 'alarm', 'Outside the circle.');
    expect(says(watching(), [...alerts, outside])).toBe(
      'Shoal: 2.1 m. 2 more alerts. Watching. 31 m to the anchor of 52 m allowed, bearing 180°.',
    );
    expect(says(watching(), [outside])).toBe(
      'Outside the circle. Watching. 31 m to the anchor, bearing 180°.',
    );
  });

  test('without a mark a fault of the machine is told all the same', () => {
    expect(says(new Afloat(settings()), [alert('disk', 'alarm', 'The disk is full.')])).toBe(
      'The disk is full. No mark: hawse is not watching. Let go marks the anchor.',
    );
  });
});

describe('the view', () => {
  test('tells distance with its uncertainty, bearing and lead; leaves out what is stale', () => {
    const boat = watching();
    const seen = view(boat);
    expect(seen.distance!.value).toBeCloseTo(31, 3);
    expect(seen.distance!.sigma).toBeCloseTo(Math.hypot(3, 2), 9);
    expect(seen.bearing).toBeCloseTo(180, 6);
    expect(seen.lead).toBeCloseTo(0, 6);
    boat.pass(1, { fix: 31, heading: 170 });
    expect(view(boat).lead).toBeCloseTo(10, 6);
    boat.pass(10, fix.fix === undefined ? {} : { fix: fix.fix });
    expect(view(boat).lead).toBeUndefined();
    boat.pass(10, {});
    expect(view(boat)).toEqual({
      phase: 'watching',
      veered: 40,
      mark: expect.anything(),
      circle: { radius: 52, computed: false, explanation: '52.0 m, as told.' },
      limits: {},
      standDown: [],
      lie: { streamUnknown: 'No reading of the log yet.' },
      farthest: expect.closeTo(31, 3),
    });
  });

  test('keeps the farthest distance of fixes that were not doubtful', () => {
    const boat = watching();
    boat.pass(2, { ...fix, fix: 44 });
    boat.pass(2, { ...fix, fix: 200, doubt: 'it jumped' });
    boat.pass(2, { ...fix, fix: 33 });
    expect(view(boat).farthest).toBeCloseTo(44, 3);
  });
});

describe('wind and stream in the report', () => {
  const lying = (lie: WatchView['lie']) => {
    const boat = watching();
    const seen = { ...view(boat), ...(lie ? { lie } : {}) };
    return report(seen, boat.view(), []);
  };
  const stream = (drift: number) => ({
    set: { value: 310, sigma: 8 },
    drift: { value: drift, sigma: 0.1 },
    from: 'sheer' as const,
  });

  test('a stream that takes the boat is told, with how far apart it and the wind push', () => {
    expect(lying({ to: 'stream', divergence: -80, stream: stream(0.566) })).toBe(
      'Watching. 31 m to the anchor of 52 m allowed, bearing 180°. ' +
        'Lying to the stream, 1.1 kn to 310°; wind and stream push 80° apart.',
    );
  });

  test('a weak stream, or one that runs with the wind, is not worth a sentence', () => {
    const short = 'Watching. 31 m to the anchor of 52 m allowed, bearing 180°.';
    expect(lying({ to: 'stream', divergence: 80, stream: stream(0.2) })).toBe(short);
    expect(lying({ to: 'both', divergence: 20, stream: stream(0.6) })).toBe(short);
    expect(lying({ streamUnknown: 'no log' })).toBe(short);
  });
});

describe('the lie event', () => {
  test('tells how she lies', () => {
    const boat = watching();
    boat.pass(1, {
      fix: 31,
      heading: 170,
      depth: { measured: 4, surface: 4.5 },
      wind: { speed: 6, from: 200 },
    });
    const stream = { value: { set: 310, drift: 0.5 }, at: boat.at, age: 0, source: 'test' };
    const event = lieEvent(boat.state, boat.settings, { ...boat.view(), stream }, boat.at);
    expect(event).toEqual({
      event: 'lie',
      cable: { reach: expect.closeTo(38.36, 1), state: 'fair' },
      t: boat.at,
      distance: expect.closeTo(31, 3),
      bearing: expect.closeTo(180, 6),
      heading: 170,
      lead: expect.closeTo(10, 6),
      depth: 4.5,
      wind: { speed: 6, from: 200 },
      stream: { set: 310, drift: 0.5 },
      divergence: -70,
    });
  });

  test('leaves out what is unknown', () => {
    const boat = new Afloat(settings());
    expect(lieEvent(boat.state, boat.settings, boat.view(), START)).toEqual({ event: 'lie', t: START });
  });
});
