import { describe, expect, test } from 'vitest';
import { depthOf, enter } from '../../../shared/soundings/chart.ts';
import { planeThrough } from '../../../shared/soundings/plane.ts';
import { createSoundings, passSoundings, sound } from '../../../shared/soundings/soundings.ts';
import { ANCHOR, boat, draws, lumpy, type Night, night, sloping } from './bottoms.ts';

describe('a cell', () => {
  const chart = () => ({
    origin: ANCHOR,
    reduced: true,
    cells: {} as Record<string, { depths: number[]; at: number }>,
  });

  test('is known from the third sounding on, and four wild ones of nine do not move it', () => {
    const one = chart();
    const depths = [5.1, 2.2, 5.0, 5.2, 2.4, 5.1, 2.0, 1.9, 5.0];
    depths.forEach((depth, i) => {
      enter(one, 12, -3, depth, 10 * i);
      expect(depthOf(one.cells['2,-1']!) === undefined).toBe(i < 2);
    });
    expect(depthOf(one.cells['2,-1']!)!.depth).toBe(5.0);
  });

  test('a fish that stays two seconds counts once', () => {
    const one = chart();
    enter(one, 0, 0, 5, 0);
    enter(one, 0, 0, 2, 1);
    enter(one, 0, 0, 2, 2);
    expect(one.cells['0,0']!.depths).toEqual([5]);
  });
});

test('a plane through spots on a plane is that plane, held a little towards level', () => {
  const spots = [];
  for (let east = -40; east <= 40; east += 10)
    for (let north = -40; north <= 40; north += 10)
      spots.push({ east, north, depth: 5 + 0.03 * east - 0.02 * north, sigma: 0.15 });
  const plane = planeThrough(spots)!;
  expect(plane.at(30, 20)).toBeCloseTo(5.5, 2);
  expect(plane.residual).toBeLessThan(0.01);
  expect(planeThrough([])).toBeUndefined();
});

/** The caution of the tide room, as it would be given for such a chart. */
const cautioned = ({ view }: Night, limit = 0.5) =>
  view.least !== undefined && view.least.underKeel - 1.3 * view.least.depth.sigma < limit;

describe.each([
  ['sloping', sloping],
  ['lumpy', lumpy],
] as const)('a hundred nights over %s bottoms', (name, bottomOf) => {
  const nights = Array.from({ length: 100 }, (_, i) => night(1000 + i, bottomOf));

  test('the chart is right where it is known: median error under 0.1 m, and its sigma honest', () => {
    const errors: number[] = [];
    let beyond = 0;
    for (const { view, truthAt } of nights)
      for (const [i, j, depth, sigma] of view.cells) {
        const error = depth - truthAt((i + 0.5) * view.side, (j + 0.5) * view.side);
        errors.push(Math.abs(error));
        if (Math.abs(error) > 3 * Math.hypot(sigma, 0.1)) beyond++;
      }
    errors.sort((a, b) => a - b);
    const median = errors[errors.length >> 1]!;
    console.log(
      `${name}: ${errors.length} cells, median error ${median.toFixed(3)} m, 95 % ${errors[Math.floor(errors.length * 0.95)]!.toFixed(2)} m, ${((100 * beyond) / errors.length).toFixed(1)} % beyond 3 sigma`,
    );
    expect(median).toBeLessThan(0.1);
    expect(beyond / errors.length).toBeLessThan(0.05);
  });

  test('no grounding that was not told hours before; false cautions counted', () => {
    let aground = 0;
    let missed = 0;
    let told = 0;
    let unneeded = 0;
    let plenty = 0;
    for (const one of nights) {
      const grounds = one.keelLeast < boat.draft;
      const shoalAnywhere = one.circleLeast + one.lowHeight < boat.draft + 0.8;
      if (!shoalAnywhere) plenty++;
      if (grounds) aground++;
      if (grounds && !cautioned(one)) missed++;
      if (cautioned(one)) told++;
      if (cautioned(one) && !shoalAnywhere) unneeded++;
    }
    console.log(
      `${name}: 100 nights, aground ${aground}, of these not told ${missed}; told ${told}, ${unneeded} of them in the ${plenty} nights with 0.3 m more than the limit in the whole circle`,
    );
    expect(aground).toBeGreaterThan(5);
    expect(missed).toBe(0);
    expect(unneeded).toBeLessThan(plenty / 4);
  });
});

describe('what it cannot know', () => {
  const known = <T>(value: T, at: number) => ({ value, at, age: 0, source: 'test' });
  const vessel = (at: number, more: object = {}) => ({
    at,
    roller: { ...known(ANCHOR, at), sigma: 2 },
    heading: { ...known(90, at), sigma: 2, from: 'true' as const },
    depth: known({ measured: 4.5, surface: 5 }, at),
    ages: {},
    sources: {},
    ...more,
  });
  const lived = (more: object, ground: object) => {
    const state = createSoundings();
    for (let at = 0; at < 100; at += 4) sound(state, boat, vessel(at, more), { anchor: ANCHOR, ...ground });
    passSoundings(state, boat.draft, 100, () => ({ anchor: ANCHOR, radius: 50, ...ground }));
    return state;
  };

  test('without a tide: depths as sounded, none at low water', () => {
    const { view } = lived({}, {});
    expect(view).toMatchObject({ reduced: false, leastUnknown: expect.stringContaining('tide is not told') });
    expect(view!.cells).toHaveLength(1);
    expect(view!.cells[0]![2]).toBeCloseTo(5, 6);
  });

  test('with another tide the chart begins anew; without a mark there is none', () => {
    const state = lived({}, {});
    sound(state, boat, vessel(200), { anchor: ANCHOR, height: 2 });
    expect(Object.values(state.chart!.cells)[0]!.depths).toEqual([3]);
    sound(state, boat, vessel(204), {});
    expect(state).toEqual({});
  });

  test('not from a doubtful position, an old depth, a depth without its reference, nor without heading far from the roller', () => {
    for (const more of [
      { positionDoubt: { reason: 'x', since: 0 } },
      { depth: { ...known({ measured: 4.5, surface: 5 }, 0), age: 9 } },
      { depth: known({ measured: 4.5 }, 1) },
      { heading: undefined },
    ])
      expect(lived(more, { height: 1 }).view?.cells ?? []).toEqual([]);
  });

  test('property of the draw: the same seed is the same night', () => {
    expect(night(5, lumpy).view).toEqual(night(5, lumpy).view);
    expect(draws(1).uniform()).not.toBe(draws(2).uniform());
  });
});
