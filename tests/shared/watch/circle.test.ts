import { describe, expect, test } from 'vitest';
import { watchView } from '../../../shared/watch/watch.ts';
import { Afloat, MARK, settings, type Told } from './help.ts';

/** Roller 1.5 m above the water; the fake receiver has a sigma of 2 m, the mark one of 3 m, the margin is 6 m. */
const computed = (veered?: number) =>
  settings({ circle: { margin: 6 }, cable: { massPerMetre: 2.3, ...(veered ? { veered } : {}) } });
const fix: Told = { fix: 20, heading: 0 };
const water = (surface: number): Told => ({ ...fix, depth: { measured: surface - 0.5, surface } });
const circle = (boat: Afloat) => watchView(boat.state, boat.settings, boat.view()).circle;
const UNCERTAIN = 2 * 3 + 2 * 2 + 6;

function markedIn(depth: Told, config = computed(50)): Afloat {
  const boat = new Afloat(config);
  boat.pass(5, depth);
  boat.order({ do: 'mark', how: { ...MARK, sigma: 3 } });
  return boat;
}

describe('the computed circle', () => {
  test('is the reach of a taut cable, √(L²−h²), two sigma of mark and of position, and the margin', () => {
    // L 50, h 9.5 → 49.089205 m, seamanship-physics.md §1.6 and §9 [C].
    const made = circle(markedIn(water(8)))!;
    expect(made.radius).toBeCloseTo(49.089205 + UNCERTAIN, 6);
    expect(made.computed).toBe(true);
    expect(made.explanation).toBe(
      '65.1 m: 49.1 m reach of 50.0 m of cable with 9.5 m from roller to bottom; + 6.0 m for the mark and 4.0 m for the ' +
        'position (two sigma each); + 6.0 m margin.',
    );
  });

  test('takes the whole cable while the depth is unknown, and says so', () => {
    const made = circle(markedIn(fix))!;
    expect(made.radius).toBeCloseTo(50 + UNCERTAIN, 9);
    expect(made.explanation).toMatch(/^66\.0 m: 50\.0 m of cable, the depth being unknown;/);
  });

  test('takes the whole cable when there is more depth than cable, and asks', () => {
    const made = circle(markedIn(water(60)))!;
    expect(made.radius).toBeCloseTo(50 + UNCERTAIN, 9);
    expect(made.explanation).toContain('is the length right?');
  });

  test('learns depth and accuracy in the first minute and then stands', () => {
    const boat = new Afloat(computed(50));
    boat.order({ do: 'mark', how: { ...MARK, sigma: 3 } });
    // No receiver yet: 8 m (95 %) by the GPS standard positioning service 2020 [M] is 3.3 m.
    expect(circle(boat)!.radius).toBeCloseTo(50 + 6 + 6.6 + 6, 9);
    boat.pass(20, fix);
    expect(circle(boat)!.radius).toBeCloseTo(50 + UNCERTAIN, 9);
    boat.pass(20, water(8));
    expect(circle(boat)!.radius).toBeCloseTo(49.089205 + UNCERTAIN, 6);
    boat.pass(600, water(20));
    expect(circle(boat)!.radius).toBeCloseTo(49.089205 + UNCERTAIN, 6);
  });

  test('keeps the first depth and accuracy that it learns, also while it waits for the other', () => {
    const boat = new Afloat(computed(50));
    boat.order({ do: 'mark', how: { ...MARK, sigma: 3 } });
    const { fix: _, ...blind } = water(8);
    boat.pass(5, blind);
    expect(circle(boat)!.radius).toBeCloseTo(49.089205 + 6 + 6.6 + 6, 6);
    boat.pass(5, { ...blind, depth: { measured: 19.5, surface: 20 } });
    expect(circle(boat)!.radius).toBeCloseTo(49.089205 + 6 + 6.6 + 6, 6);
    boat.pass(5, water(20));
    expect(circle(boat)!.radius).toBeCloseTo(49.089205 + UNCERTAIN, 6);
  });

  test('what it has learnt late does not give it another minute', () => {
    const boat = new Afloat(computed(50));
    boat.order({ do: 'mark', how: { ...MARK, sigma: 3 } });
    boat.pass(50, {});
    const { fix: _, ...blind } = water(8);
    boat.pass(20, blind);
    boat.pass(60, water(8));
    expect(circle(boat)!.radius).toBeCloseTo(49.089205 + 6 + 6.6 + 6, 6);
  });

  test('is made anew when the height of the roller is put right', () => {
    const boat = markedIn(water(8));
    boat.settings.boat.roller.height = 4;
    boat.pass(1, water(8));
    // L 50, h 12: by hand, √(2500 − 144).
    expect(circle(boat)!.radius).toBeCloseTo(Math.sqrt(2356) + UNCERTAIN, 9);
  });

  test('learns nothing after the first minute', () => {
    const boat = markedIn(fix);
    boat.pass(61, fix);
    boat.pass(60, water(8));
    expect(circle(boat)!.radius).toBeCloseTo(50 + UNCERTAIN, 9);
  });

  test('is made anew, from the depth of then, when cable is veered, the mark moved or hawse.yaml changed', () => {
    const boat = markedIn(water(8));
    boat.pass(100, water(10.5));
    boat.order({ do: 'watch', change: { veered: 30 } });
    // L 30, h 12: by hand, √(900 − 144).
    expect(circle(boat)!.radius).toBeCloseTo(Math.sqrt(756) + UNCERTAIN, 9);
    boat.order({ do: 'mark', how: { ...MARK, sigma: 10 } });
    expect(circle(boat)!.radius).toBeCloseTo(Math.sqrt(756) + 20 + 4 + 6, 9);
    boat.settings.circle.margin = 16;
    boat.pass(1, water(10.5));
    expect(circle(boat)!.radius).toBeCloseTo(Math.sqrt(756) + 20 + 4 + 16, 9);
  });
});

describe('the circle', () => {
  test('is absent while neither radius nor veered length is known', () => {
    const boat = markedIn(water(8), computed());
    expect(circle(boat)).toBeUndefined();
    boat.order({ do: 'watch', change: { veered: 50 } });
    expect(circle(boat)!.radius).toBeCloseTo(49.089205 + UNCERTAIN, 6);
  });

  test('is as told in hawse.yaml, on the page before that, and computed again when asked for', () => {
    const boat = markedIn(
      water(8),
      settings({ circle: { radius: 40, margin: 6 }, cable: { massPerMetre: 2.3, veered: 50 } }),
    );
    expect(circle(boat)).toEqual({ radius: 40, computed: false, explanation: '40.0 m, as told.' });
    boat.order({ do: 'watch', change: { circleRadius: 44 } });
    expect(circle(boat)).toMatchObject({ radius: 44, computed: false });
    boat.order({ do: 'watch', change: { circleRadius: null } });
    expect(circle(boat)).toMatchObject({ computed: true });
    expect(circle(boat)!.radius).toBeCloseTo(49.089205 + UNCERTAIN, 6);
  });

  test('is not there without a mark', () => {
    const boat = new Afloat(computed(50));
    boat.pass(5, water(8));
    boat.order({ do: 'watch', change: { circleRadius: 44 } });
    expect(circle(boat)).toBeUndefined();
  });
});
