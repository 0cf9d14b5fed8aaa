import { describe, expect, test } from 'vitest';
import { destination, distanceBearing } from '../../../shared/earth/geodesic.ts';
import type { Mark } from '../../../shared/watch/view.ts';
import { createWatch, type WatchCommand, watchView } from '../../../shared/watch/watch.ts';
import { Afloat, MARK, START, settings, type Told } from './help.ts';

const fix: Told = { fix: 20, heading: 0 };
const view = (boat: Afloat) => watchView(boat.state, boat.settings, boat.view());

function afloat(told: Told = fix): Afloat {
  const boat = new Afloat(settings({ cable: { massPerMetre: 2.3, veered: 40 } }));
  boat.pass(5, told);
  return boat;
}

function marked(boat: Afloat, how: Extract<WatchCommand, { do: 'mark' }>['how']): Mark {
  const { answer, events } = boat.order({ do: 'mark', how });
  if (!answer.ok || !answer.mark) throw new Error(JSON.stringify(answer));
  expect(events).toEqual([{ event: 'mark', t: boat.at, by: 'Ann', mark: answer.mark }]);
  expect(view(boat).mark).toEqual(answer.mark);
  expect(view(boat).phase).toBe('watching');
  return answer.mark;
}

describe('the mark', () => {
  test('here is the roller now, as uncertain as the roller', () => {
    const mark = marked(afloat(), { here: true });
    expect(mark).toMatchObject({ sigma: 2, at: START + 5, by: 'Ann', how: 'here' });
    expect(distanceBearing(mark, destination(MARK, 0, 20)).distance).toBeLessThan(1e-6);
  });

  test('here by a doubtful position is taken, with a sigma that says so', () => {
    expect(marked(afloat({ ...fix, doubt: 'it jumped' }), { here: true }).sigma).toBe(10);
  });

  test('here without a position is refused', () => {
    for (const boat of [new Afloat(settings()), afloat()]) {
      boat.pass(20, { heading: 0 });
      const { answer, events } = boat.order({ do: 'mark', how: { here: true } });
      expect(answer).toMatchObject({ ok: false, problem: 'unavailable' });
      expect(events).toEqual([]);
      expect(boat.state.phase).toBe('no-mark');
    }
  });

  test('by bearing and distance lies there from the roller; 3° and 5 % add to the sigma of the roller', () => {
    const boat = afloat();
    const mark = marked(boat, { bearing: 225, distance: 40 });
    const seen = distanceBearing(destination(MARK, 0, 20), mark);
    expect(seen.distance).toBeCloseTo(40, 4);
    expect(seen.bearing).toBeCloseTo(225, 3);
    // Across 40 · 3π/180 = 2.0944 m, along 2 m; per axis their root mean square, 2.0477, with the roller's 2.
    expect(mark.sigma).toBeCloseTo(2.8624, 3);
    expect(mark.how).toBe('bearing-and-distance');
  });

  test('by latitude and longitude needs no position; 5 m when no sigma is told', () => {
    const boat = new Afloat(settings());
    expect(marked(boat, { ...MARK })).toMatchObject({ ...MARK, sigma: 5, how: 'position' });
    expect(marked(boat, { ...MARK, sigma: 3, from: 'anchorage-file' })).toMatchObject({
      sigma: 3,
      how: 'anchorage-file',
    });
  });

  test('from a track that is not there: unavailable', () => {
    const { answer } = afloat().order({ do: 'mark', how: { fromTrack: true } });
    expect(answer).toMatchObject({ ok: false, problem: 'unavailable' });
  });

  test('out of the world is refused and changes nothing', () => {
    const boat = afloat();
    marked(boat, { ...MARK });
    const before = structuredClone(boat.state);
    for (const how of [
      { lat: 91, lon: 0 },
      { lat: 0, lon: 181 },
      { lat: Number.NaN, lon: 0 },
      { lat: 0, lon: 0, sigma: 0 },
      { lat: 0, lon: 0, sigma: Number.NaN },
      { bearing: -1, distance: 30 },
      { bearing: 361, distance: 30 },
      { bearing: 30, distance: -1 },
      { bearing: 30, distance: 1001 },
      { bearing: Number.NaN, distance: 30 },
      { bearing: 30, distance: Number.NaN },
    ]) {
      expect(boat.order({ do: 'mark', how }).answer).toMatchObject({ ok: false, problem: 'refused' });
    }
    expect(boat.state).toEqual(before);
  });

  test('moved keeps cable, circle and limits as told, and forgets the farthest distance', () => {
    const boat = afloat();
    marked(boat, { ...MARK });
    boat.order({ do: 'watch', change: { veered: 33, limits: { depthBelow: 3 } } });
    boat.pass(10, { ...fix, fix: 45 });
    expect(view(boat).farthest).toBeCloseTo(45, 3);
    marked(boat, { here: true });
    expect(view(boat)).toMatchObject({ veered: 33, limits: { depthBelow: 3 } });
    expect(view(boat).farthest).toBeCloseTo(0, 6);
  });

  test('closed by aweigh: no watch, and nothing told for this anchorage is left; the track stays', () => {
    const boat = afloat();
    marked(boat, { ...MARK });
    boat.order({
      do: 'watch',
      change: { veered: 33, circleRadius: 10, limits: { depthBelow: 3, windShift: 40 } },
    });
    boat.pass(20, { ...fix, wind: { speed: 6, from: 10 } });
    expect(boat.kinds()).toEqual(['outside-circle']);
    const { track } = boat.state;
    expect(boat.order({ do: 'aweigh' })).toEqual({
      answer: { ok: true },
      events: [{ event: 'mark', t: boat.at, by: 'Ann' }],
    });
    expect(boat.state).toEqual({ ...createWatch(), track });
    expect(boat.pass(100, {})).toEqual(['1.0 -outside-circle']);
    expect(view(boat)).toMatchObject({ phase: 'no-mark', veered: 40, limits: {} });
    expect(boat.order({ do: 'aweigh' }).answer).toMatchObject({ ok: false, problem: 'refused' });
  });
});

describe('a change of the watch', () => {
  test('is taken over, told in a note, and can be undone', () => {
    const boat = afloat();
    marked(boat, { ...MARK });
    const { answer, events } = boat.order({
      do: 'watch',
      change: { veered: 35.5, circleRadius: 52, limits: { windAbove: 10, windShift: 60, depthAbove: null } },
    });
    expect(answer).toEqual({ ok: true });
    expect(events).toEqual([
      {
        event: 'note',
        t: boat.at,
        text: 'Watch changed by Ann: veered 35.5 m, circle 52.0 m, greatest depth not watched, wind limit 19.4 kn, wind shift 60°.',
      },
    ]);
    expect(view(boat)).toMatchObject({
      veered: 35.5,
      circle: { radius: 52 },
      limits: { windAbove: 10, windShift: 60 },
    });
    boat.order({ do: 'watch', change: { limits: { windAbove: null } } });
    expect(view(boat).limits).toEqual({ windShift: 60 });
  });

  test('can be told before the anchor is let go', () => {
    const boat = afloat();
    boat.order({ do: 'watch', change: { veered: 25 } });
    marked(boat, { here: true });
    expect(view(boat).veered).toBe(25);
  });

  test('takes a limit of hawse.yaml away, and a limit of hawse.yaml holds where nothing is told', () => {
    const boat = new Afloat(settings({ limits: { depthBelow: 2, windAbove: 12 } }));
    boat.order({ do: 'watch', change: { limits: { depthBelow: null } } });
    expect(view(boat).limits).toEqual({ windAbove: 12 });
  });

  test('with one bad value is refused whole, with every fault named', () => {
    const boat = afloat();
    const before = structuredClone(boat.state);
    const refused = (change: Extract<WatchCommand, { do: 'watch' }>['change']): string => {
      const { answer, events } = boat.order({ do: 'watch', change });
      expect(events).toEqual([]);
      expect(boat.state).toEqual(before);
      if (answer.ok) throw new Error('it was taken');
      expect(answer.problem).toBe('refused');
      return answer.why;
    };
    expect(refused({ veered: 30, limits: { windAbove: -3, windShift: 400 } })).toBe(
      'wind limit: -3 is not a number from 0.5 to 80 m/s. wind shift: 400 is not a number from 1 to 180 degrees.',
    );
    expect(refused({ veered: Number.NaN })).toMatch(/^veered/);
    expect(refused({ circleRadius: 0 })).toMatch(/^circle radius/);
    expect(refused({ limits: { depthBelow: 5, depthAbove: 5 } })).toBe(
      'The least depth (5.0 m) must be less than the greatest (5.0 m).',
    );
  });

  test('that changes nothing is no event', () => {
    expect(afloat().order({ do: 'watch', change: {} })).toEqual({ answer: { ok: true }, events: [] });
  });
});

describe('weighing', () => {
  test('needs a mark, begins and stops once', () => {
    const boat = afloat();
    expect(boat.order({ do: 'weigh' }).answer).toMatchObject({ ok: false, problem: 'refused' });
    marked(boat, { ...MARK });
    expect(boat.order({ do: 'stop-weighing' }).answer).toMatchObject({ ok: false, problem: 'refused' });
    expect(boat.order({ do: 'weigh' }).answer).toEqual({ ok: true });
    expect(boat.order({ do: 'weigh' }).answer).toMatchObject({ ok: false, problem: 'refused' });
    expect(view(boat).phase).toBe('weighing');
    boat.order({ do: 'mark', how: { here: true } });
    expect(view(boat).phase).toBe('weighing');
    expect(boat.order({ do: 'stop-weighing' }).answer).toEqual({ ok: true });
    expect(view(boat).phase).toBe('watching');
  });

  test('stands circle and wind shift down, and says which; depth and position go on', () => {
    const boat = afloat();
    boat.settings.limits = { windShift: 60, depthBelow: 3 };
    marked(boat, { ...MARK });
    boat.pass(10, { ...fix, fix: 70 });
    expect(boat.kinds()).toEqual(['outside-circle']);
    boat.order({ do: 'weigh' });
    expect(view(boat).standDown).toEqual(['outside-circle', 'wind-shift']);
    const away: Told = { fix: 300, heading: 0, depth: { measured: 2, surface: 2.5 } };
    expect(boat.pass(20, away)).toEqual(['0.2 -outside-circle', '5.2 +shoal']);
    expect(boat.pass(20, { heading: 0 })).toContain('8.0 +position-lost');
  });

  test('stopped, watches again from the beginning: what held before does not count', () => {
    const boat = afloat();
    marked(boat, { ...MARK });
    boat.pass(10, { ...fix, fix: 70 });
    expect(boat.kinds()).toEqual(['outside-circle']);
    boat.order({ do: 'weigh' });
    boat.pass(2, { ...fix, fix: 70 });
    boat.order({ do: 'stop-weighing' });
    expect(view(boat).standDown).toEqual([]);
    expect(boat.pass(10, { ...fix, fix: 70 })).toEqual(['4.2 +outside-circle']);
  });
});

test('without a mark nothing is found, whatever happens', () => {
  const boat = afloat();
  boat.settings.limits = { depthBelow: 3, windAbove: 5 };
  const bad: Told = {
    fix: 5000,
    doubt: 'it jumped',
    depth: { measured: 1 },
    wind: { speed: 30, from: 0 },
  };
  expect(boat.pass(100, bad)).toEqual([]);
  expect(boat.pass(100, {})).toEqual([]);
});
