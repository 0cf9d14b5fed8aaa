import { describe, expect, test } from 'vitest';
import { TRACK } from '../../../shared/watch/limits.ts';
import { Afloat, START, settings } from './help.ts';

describe('the track', () => {
  test('is kept without a mark, with what was known at each point', () => {
    const boat = new Afloat(settings());
    boat.pass(1, {
      fix: 20,
      heading: 90,
      depth: { measured: 5, surface: 5.5 },
      wind: { speed: 6, from: 10 },
    });
    boat.pass(30, { fix: 30 });
    const [first] = boat.state.track;
    expect(first).toMatchObject({ heading: 90, depth: 5.5, wind: 6, at: START + 0.2 });
    expect(boat.state.track.at(-1)).toEqual({
      lat: expect.any(Number),
      lon: expect.any(Number),
      at: expect.any(Number),
    });
  });

  test('takes a point each metre moved or each ten seconds', () => {
    const still = new Afloat(settings());
    still.pass(61, (second) => ({ fix: 20 + (second % 2) * 0.9 }));
    expect(still.state.track.map(({ at }) => Math.round(at - START))).toEqual([0, 10, 20, 30, 40, 50, 60]);
    const moving = new Afloat(settings());
    moving.pass(60, (second) => ({ fix: 20 + (second % 2) * 1.1 }));
    expect(moving.state.track).toHaveLength(60);
  });

  test('stays bounded and evenly dense: a whole night is there, from its first minute to the newest fix', () => {
    const boat = new Afloat(settings());
    const night = 12 * 3600;
    boat.pass(night, (second) => ({ fix: 20 + ((second * 7) % 31) }));
    const { track } = boat.state;
    expect(track.length).toBeLessThan(TRACK.points);
    expect(track.length).toBeGreaterThanOrEqual(TRACK.points / 2);
    expect(track[0]!.at - START).toBeLessThan(60);
    expect(START + night - track.at(-1)!.at).toBeLessThan(20);
    const gaps = track.slice(1).map((point, index) => point.at - track[index]!.at);
    expect(Math.min(...gaps)).toBeGreaterThan(0);
    expect(Math.max(...gaps)).toBeLessThan(20);
  });

  test('is dense again once a mark is set', () => {
    const boat = new Afloat(settings());
    const moving = (second: number) => ({ fix: 20 + (second % 2) * 2 });
    boat.pass(2 * TRACK.points, moving);
    expect(boat.state.trackEvery).toBeGreaterThan(1);
    boat.order({ do: 'mark', how: { here: true } });
    boat.pass(10, moving);
    expect(boat.state.track.at(-1)!.at - boat.state.track.at(-2)!.at).toBeCloseTo(1, 3);
  });

  test('forgets what is older than a day', () => {
    const boat = new Afloat(settings());
    boat.pass(10, { fix: 20 });
    boat.at = START + 2 * 86_400;
    boat.pass(TRACK.points, (second) => ({ fix: 20 + (second % 2) * 2 }));
    expect(boat.state.track[0]!.at).toBeGreaterThan(START + 2 * 86_400);
  });
});

describe('how she lies, for the strip of the last hours', () => {
  const lying = (): Afloat => {
    const boat = Afloat.watching(settings({ cable: { massPerMetre: 2.3, veered: 40 } }));
    boat.pass(1800, (second) => ({
      fix: 34 + (second % 7) / 10 + (second === 900 ? 3 : 0),
      heading: 180,
      wind: { speed: 8, from: 180 },
    }));
    return boat;
  };

  test('one point a minute tells it: the farthest since the last, the reach, and what that says of the anchor', () => {
    const told = lying().state.track.filter(({ lie }) => lie);
    expect(told.length).toBeGreaterThan(24);
    expect(told.length).toBeLessThanOrEqual(30);
    for (const [i, { at }] of told.entries())
      if (i > 0) expect(at - told[i - 1]!.at).toBeGreaterThanOrEqual(60);
    expect(told.every(({ lie }) => lie!.distance >= 34.4 && lie!.reach > 36 && lie!.reach < 40)).toBe(true);
    expect(told.filter(({ lie }) => lie!.distance > 36)).toHaveLength(1);
    expect(told.every(({ lie }) => lie!.probability < 0.1 && lie!.moved < 1)).toBe(true);
  });

  test('it outlives the thinning of the track', () => {
    const boat = lying();
    const told = boat.state.track.filter(({ lie }) => lie).length;
    boat.pass(TRACK.points + 100, (second) => ({ fix: 20 + (second % 2) * 12, heading: 180 }));
    const begun = boat.state.track.filter(({ at, lie }) => lie && at < START + 1801).length;
    expect(boat.state.track.length).toBeLessThan(TRACK.points);
    expect(begun).toBe(told);
  });

  test('without a mark there is none', () => {
    const boat = new Afloat(settings({ cable: { massPerMetre: 2.3, veered: 40 } }));
    boat.pass(300, { fix: 30, heading: 180 });
    expect(boat.state.track.some(({ lie }) => lie)).toBe(false);
  });
});
