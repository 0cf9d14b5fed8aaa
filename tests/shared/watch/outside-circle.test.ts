import { describe, expect, test } from 'vitest';
import { Afloat, settings, type Told } from './help.ts';

/** Circle 50 m; a fix each second at x.2 s. Times are seconds since the boat began to do what the test says. */
const fix = (metres: number, more: Told = {}): Told => ({ fix: metres, heading: 0, ...more });

function inside(): Afloat {
  const boat = Afloat.watching(settings());
  expect(boat.pass(20, fix(49.9))).toEqual([]);
  return boat;
}

function outside(): Afloat {
  const boat = inside();
  boat.pass(5, fix(50.1));
  expect(boat.kinds()).toEqual(['outside-circle']);
  return boat;
}

describe('outside-circle is raised', () => {
  test('after four seconds and three fixes outside, with distance and limit', () => {
    const boat = inside();
    expect(boat.pass(8, fix(50.1))).toEqual(['4.2 +outside-circle']);
    const [finding] = boat.found;
    expect(finding).toMatchObject({ kind: 'outside-circle', priority: 'alarm', limit: 50 });
    expect(finding!.value).toBeCloseTo(50.1, 3);
    expect(finding!.text).toBe('Outside the circle: 50.1 m from roller to mark, 50.0 m allowed.');
  });

  test('by slow fixes only with the third of them', () => {
    const boat = inside();
    const slow = (second: number): Told => (second % 3 === 0 ? fix(60) : {});
    expect(boat.pass(12, slow)).toEqual(['6.2 +outside-circle']);
  });

  test('at once in neither case: two fixes outside and one inside begin anew', () => {
    const boat = inside();
    const jumpy = (second: number): Told => fix(second % 3 === 2 ? 49 : 70);
    expect(boat.pass(120, jumpy)).toEqual([]);
  });
});

describe('outside-circle is not raised', () => {
  test('at exactly the radius of the circle or just inside it, for an hour', () => {
    expect(inside().pass(3600, fix(49.999))).toEqual([]);
  });

  test('by three seconds outside', () => {
    const boat = inside();
    expect(boat.pass(4, fix(60))).toEqual([]);
    expect(boat.pass(30, fix(49))).toEqual([]);
  });

  test('by three fixes outside in two seconds that get older while no other comes', () => {
    const boat = inside();
    boat.pass(3, fix(60));
    expect(boat.pass(30, { heading: 0 })).toEqual(['8.0 +position-lost']);
  });

  test('by one jump of the position that freezes there: one fix is no three', () => {
    const boat = inside();
    boat.pass(1, fix(300));
    expect(boat.pass(30, { heading: 0 })).toEqual(['8.0 +position-lost']);
  });
});

describe('outside-circle ends', () => {
  test('after ten seconds two metres inside the circle, and says meanwhile that she is back', () => {
    const boat = outside();
    boat.pass(1, fix(47.9));
    expect(boat.text('outside-circle')).toBe(
      'Was outside the circle, is back: 47.9 m from roller to mark, 50.0 m allowed.',
    );
    expect(boat.pass(12, fix(47.9))).toEqual(['9.2 -outside-circle']);
  });

  test('not by sailing about within two metres of the circle', () => {
    expect(outside().pass(600, fix(48.1))).toEqual([]);
  });

  test('not by nine seconds inside', () => {
    const boat = outside();
    boat.pass(9, fix(40));
    boat.pass(1, fix(49));
    expect(boat.pass(9, fix(40))).toEqual([]);
  });

  test('not by a lost position, which raises nothing either: it stays, without a figure', () => {
    const boat = outside();
    expect(boat.pass(300, { heading: 0 })).toEqual(['8.0 +position-lost']);
    expect(boat.found.find(({ kind }) => kind === 'outside-circle')).toEqual({
      kind: 'outside-circle',
      priority: 'alarm',
      limit: 50,
      text: 'Outside the circle of 50.0 m when last seen; there is no position now.',
    });
  });

  test('at once when somebody makes the circle wider, or moves the mark to where she lies', () => {
    const wider = outside();
    wider.order({ do: 'watch', change: { circleRadius: 55 } });
    expect(wider.pass(1, fix(50.1))).toEqual(['0.2 -outside-circle']);
    const moved = outside();
    moved.order({ do: 'mark', how: { here: true } });
    expect(moved.pass(1, fix(50.1))).toEqual(['0.2 -outside-circle']);
  });
});

describe('a doubtful position', () => {
  const doubtful = (metres: number) => fix(metres, { doubt: 'it jumped' });

  test('outside the circle raises the doubt at once and after a minute a warning, which says why it is none the more', () => {
    const boat = inside();
    expect(boat.pass(90, doubtful(80))).toEqual(['0.2 +position-doubtful', '60.2 +outside-circle']);
    expect(boat.text('position-doubtful')).toBe('The position is doubtful: it jumped.');
    expect(boat.found.find(({ kind }) => kind === 'outside-circle')).toEqual({
      kind: 'outside-circle',
      priority: 'warning',
      limit: 50,
      value: expect.closeTo(80, 3),
      text: 'Outside the circle: 80.0 m from roller to mark, 50.0 m allowed. The position is doubtful, and its error may explain that: look for yourself.',
    });
  });

  const priority = (boat: Afloat) => boat.found.find(({ kind }) => kind === 'outside-circle')?.priority;

  test('farther out than any known error of a receiver is an alarm after a minute', () => {
    const boat = inside();
    boat.pass(59, doubtful(260));
    expect(priority(boat)).toBeUndefined();
    boat.pass(5, doubtful(260));
    expect(priority(boat)).toBe('alarm');
  });

  test('outside without a break for longer than its error lasts is an alarm', () => {
    const boat = inside();
    boat.pass(1190, doubtful(80));
    expect(priority(boat)).toBe('warning');
    boat.pass(20, doubtful(80));
    expect(priority(boat)).toBe('alarm');
  });

  test('that wanders in and out stays a warning at most', () => {
    const boat = inside();
    boat.pass(3600, (t) => doubtful(80 - 60 * Math.sin(t / 200)));
    expect(priority(boat)).not.toBe('alarm');
  });

  test('after the alarm of sound fixes takes nothing of it back', () => {
    const boat = outside();
    boat.pass(300, doubtful(80));
    expect(priority(boat)).toBe('alarm');
  });

  test('that comes back within a minute raises no alarm', () => {
    const boat = inside();
    boat.pass(59, doubtful(80));
    expect(boat.pass(60, fix(40))).toEqual(['0.2 -position-doubtful']);
  });

  test('that turns out right is an alarm by sound fixes alone', () => {
    const boat = inside();
    boat.pass(20, doubtful(80));
    expect(boat.pass(10, fix(80))).toEqual(['0.2 -position-doubtful', '4.2 +outside-circle']);
  });

  test('inside the circle ends the alarm after a minute only', () => {
    expect(outside().pass(90, doubtful(30))).toEqual(['0.2 +position-doubtful', '60.2 -outside-circle']);
  });
});

describe('without a heading', () => {
  test('the antenna may lie further out than the roller by the distance between them', () => {
    const boat = Afloat.watching(settings());
    expect(boat.pass(60, { fix: 58.9 })).toEqual([]);
    expect(boat.pass(60, { fix: 59.1 })).toEqual(['4.2 +outside-circle']);
    expect(boat.text('outside-circle')).toBe(
      'Outside the circle: 59.1 m from antenna to mark, 50.0 m allowed for the roller and 9.0 m for where it is, ' +
        'unknown without a heading.',
    );
  });
});

test('without a circle nothing is outside it', () => {
  const boat = Afloat.watching(settings({ circle: { margin: 6 } }));
  expect(boat.pass(60, fix(500))).toEqual([]);
});
