import { describe, expect, test } from 'vitest';
import { watchView } from '../../../../shared/watch/watch.ts';
import { START } from '../help.ts';
import { held, Lying, ramp } from './lying.ts';

const HOUR = 3600;

function untold(seed: number): Lying {
  const boat = new Lying(seed);
  delete boat.settings.cable.veered;
  return boat;
}
const view = (boat: Lying) =>
  watchView(boat.state, boat.settings, {
    at: boat.at,
    roller: { value: boat.state.mark!, at: boat.at, age: 0, source: 'a', sigma: 2 },
    ages: {},
    sources: {},
  });

describe('while nobody has told how much cable is out', () => {
  test('it says so, and how long it still learns', () => {
    const boat = untold(1).lie(300, held());
    expect(view(boat).dragUnseen).toBe(
      'Drag is not judged yet: hawse does not know how much cable is out and learns from how she lies, 10 min more. Tell it the metres veered.',
    );
    expect(view(boat).anchor).toBeUndefined();
  });

  test('after a quarter of an hour it goes by a length that lets her lie where she lay', () => {
    const boat = untold(1).lie(1200, held());
    // 37 m from the anchor, 8 m deep, roller 1.5 m above: the straight line would be 38.2 m.
    expect(view(boat).cableSupposed).toBeGreaterThanOrEqual(37);
    expect(view(boat).cableSupposed).toBeLessThan(44);
    expect(view(boat).dragUnseen).toBeUndefined();
  });

  test('a held anchor is left in peace, a dragging one is found, later than with the length told', () => {
    const boat = untold(4).lie(3 * HOUR, held());
    expect(boat.levels).toEqual([]);
    boat.lie(HOUR, held(20, ramp(boat.at - START, 30 / HOUR)));
    expect(boat.levels.at(-1)).toBe('alarm');
  });

  test('it forgets its supposition when the length is told', () => {
    const boat = untold(1).lie(1200, held());
    boat.state.told.veered = 40;
    boat.lie(60, held());
    expect(view(boat).cableSupposed).toBeUndefined();
    expect(boat.state.drag?.supposed).toBeUndefined();
  });
});
