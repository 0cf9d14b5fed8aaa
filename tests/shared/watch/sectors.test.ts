import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { destination } from '../../../shared/earth/geodesic.ts';
import { drawSectors, within } from '../../../shared/watch/sectors.ts';
import { Afloat, MARK, settings, type Told } from './help.ts';

/** The roller lies north of the mark; heading south, so that her stern is 12 m further north. */
const lies = (metres: number, more: Told = {}): Told => ({ fix: metres, heading: 180, ...more });
const bank = { name: 'the bank', from: 340, to: 30, beyond: 40 };

function watched(sectors = [bank]): Afloat {
  const boat = Afloat.watching(settings({ circle: { radius: 200, margin: 6 } }));
  boat.pass(3, lies(20));
  expect(boat.order({ do: 'watch', change: { sectors } })).toMatchObject({ answer: { ok: true } });
  return boat;
}

describe('outside-sector', () => {
  test('the stern enters first: raised after four seconds and three fixes, with how far and where', () => {
    const boat = watched();
    expect(boat.pass(30, lies(27.9))).toEqual([]);
    expect(boat.pass(8, lies(30))).toEqual(['4.2 +outside-sector']);
    expect(boat.found[0]).toMatchObject({ kind: 'outside-sector', priority: 'alarm' });
    expect(boat.found[0]!.value).toBeCloseTo(2, 2);
    expect(boat.text('outside-sector')).toBe('The stern is 2.0 m inside the sector "the bank".');
    expect(boat.pass(60, lies(20))).toEqual(['20.2 -outside-sector']);
  });

  test('without a heading only the bow is known', () => {
    const boat = watched();
    boat.pass(6, { fix: 20 });
    expect(boat.pass(20, { fix: 39 })).toEqual(['9.0 +heading-lost']);
    expect(boat.pass(8, { fix: 42 })).toEqual(['4.2 +outside-sector']);
    expect(boat.text('outside-sector')).toContain('The bow is 2.0 m inside');
  });

  test('is watched while weighing, and a doubtful position is given a minute', () => {
    const boat = watched();
    boat.order({ do: 'weigh' });
    expect(boat.pass(8, lies(30))).toEqual(['4.2 +outside-sector']);
    const doubtful = watched();
    expect(doubtful.pass(50, lies(30, { doubt: 'few satellites' }))).toEqual(['0.2 +position-doubtful']);
    expect(doubtful.pass(20, lies(30, { doubt: 'few satellites' }))).toEqual(['10.2 +outside-sector']);
  });

  test('stays, and says that it is blind, when the position goes', () => {
    const boat = watched();
    boat.pass(8, lies(30));
    boat.pass(30, {});
    expect(boat.text('outside-sector')).toBe(
      'In a sector that she must not enter when last seen; there is no position now.',
    );
  });

  test('the list that is told last holds; sectors stay where they are when the mark is moved, and go with aweigh', () => {
    const boat = watched();
    boat.pass(8, lies(30));
    boat.order({ do: 'watch', change: { sectors: [] } });
    expect(boat.pass(2, lies(30))).toEqual(
      ['1.0 -outside-sector'].map(() => expect.stringContaining('-outside-sector')),
    );
    const other = watched();
    other.order({ do: 'mark', how: { ...destination(MARK, 180, 20), sigma: 3 } });
    expect(other.pass(8, lies(30))).toEqual(['4.2 +outside-sector']);
    other.order({ do: 'aweigh' });
    expect(other.state.told.sectors).toBeUndefined();
  });

  test.each([
    [[{ ...bank, from: 30, to: 30 }], /wide/],
    [[{ ...bank, from: -1 }], /0 to 360/],
    [[{ ...bank, beyond: Number.NaN }], /5000 m/],
    [Array.from({ length: 9 }, () => bank), /At most 8/],
  ])('what cannot be a sector is refused and changes nothing', (sectors, why) => {
    const boat = watched();
    expect(boat.order({ do: 'watch', change: { sectors, veered: 50 } }).answer).toMatchObject({
      ok: false,
      problem: 'refused',
      why: expect.stringMatching(why),
    });
    expect(boat.state.told.veered).toBeUndefined();
    expect(boat.state.told.sectors).toHaveLength(1);
  });

  test('none without a mark', () => {
    const boat = new Afloat(settings());
    expect(boat.order({ do: 'watch', change: { sectors: [bank] } }).answer).toMatchObject({ ok: false });
    expect(boat.order({ do: 'watch', change: { sectors: [] } }).answer).toMatchObject({ ok: true });
  });
});

test('property: inside exactly when its bearing and its distance say so, and never deeper than its distance to the arc', () => {
  const angle = fc.integer({ min: 0, max: 359 });
  fc.assert(
    fc.property(
      angle,
      fc.integer({ min: 1, max: 359 }),
      fc.integer({ min: 1, max: 80 }),
      angle,
      fc.integer({ min: 1, max: 200 }),
      (from, width, beyond, bearing, distance) => {
        const told = { from, to: (from + width) % 360, beyond };
        const drawn = drawSectors([told], { ...MARK, sigma: 3, at: 0, by: '', how: 'here' });
        if (!drawn.ok) throw new Error(drawn.why);
        const off = (bearing - from + 360) % 360;
        fc.pre(
          Math.abs(distance - beyond) > 0.01 && off > 0.01 && Math.abs(off - width) > 0.01 && off < 359.99,
        );
        const depth = within(drawn.sectors[0]!, destination(MARK, bearing, distance));
        expect(depth !== undefined).toBe(distance > beyond && off < width);
        if (depth !== undefined) {
          expect(depth).toBeLessThanOrEqual(distance - beyond + 1e-6);
          expect(depth).toBeGreaterThan(0);
        }
      },
    ),
  );
});

describe('how far inside a point lies', () => {
  const sector = { ...MARK, from: 0, to: 60, beyond: 40 };
  const inside = (bearing: number, metres: number, of = sector) =>
    within(of, destination(MARK, bearing, metres));

  test('to the nearest edge: the arc, or either side, by the sine of the angle to it', () => {
    expect(inside(30, 45)).toBeCloseTo(5, 3);
    expect(inside(1, 100)).toBeCloseTo(100 * Math.sin(Math.PI / 180), 2);
    expect(inside(59, 100)).toBeCloseTo(100 * Math.sin(Math.PI / 180), 2);
    expect(inside(30, 39.9)).toBeUndefined();
    expect(inside(359, 100)).toBeUndefined();
    expect(inside(61, 100)).toBeUndefined();
  });

  test('with sides farther round than a right angle the way to them leads over the centre', () => {
    const wide = { ...MARK, from: 0, to: 270, beyond: 10 };
    expect(inside(135, 100, wide)).toBeCloseTo(90, 3);
    expect(inside(135, 100, { ...wide, beyond: 0 })).toBeCloseTo(100, 3);
    expect(inside(30, 100, { ...wide, beyond: 0 })).toBeCloseTo(50, 3);
  });

  test('all round there are no sides', () => {
    const round = { ...MARK, from: 0, to: 0, beyond: 40 };
    const drawn = drawSectors([{ from: 0, to: 360, beyond: 40 }], {
      ...MARK,
      sigma: 2,
      at: 0,
      by: 'Ann',
      how: 'here',
    });
    expect(drawn).toMatchObject({ ok: true });
    expect(within(round, destination(MARK, 200, 100))).toBeUndefined();
  });
});

describe('what can be a sector', () => {
  const mark = { ...MARK, sigma: 2, at: 0, by: 'Ann', how: 'here' as const };
  const told = (more: object) => drawSectors([{ from: 10, to: 20, beyond: 40, ...more }], mark).ok;

  test('bearings of 0 to 360, a degree wide at least, from 0 to 5000 m on, eight of them', () => {
    for (const good of [{ from: 0 }, { to: 360 }, { from: 360 }, { beyond: 0 }, { beyond: 5000 }, { to: 11 }])
      expect(told(good)).toBe(true);
    for (const bad of [
      { from: -1 },
      { from: 361 },
      { to: -1 },
      { to: 361 },
      { to: 10 },
      { to: 10.5 },
      { beyond: -1 },
      { beyond: 5001 },
      { beyond: Number.NaN },
    ])
      expect(told(bad)).toBe(false);
    const many = (n: number) => Array.from({ length: n }, () => ({ from: 10, to: 20, beyond: 40 }));
    expect(drawSectors(many(8), mark).ok).toBe(true);
    expect(drawSectors(many(9), mark).ok).toBe(false);
    expect(drawSectors([{ from: 10, to: 20, beyond: 40 }], undefined).ok).toBe(false);
    expect(drawSectors([], undefined)).toEqual({ ok: true, sectors: [] });
  });
});

test('of several sectors the one she is deepest in is told, whichever was drawn first', () => {
  const shallow = { name: 'the edge', from: 300, to: 90, beyond: 38 };
  const deep = { name: 'the middle', from: 300, to: 90, beyond: 30 };
  for (const sectors of [
    [shallow, deep],
    [deep, shallow],
  ]) {
    const boat = watched(sectors);
    boat.pass(8, lies(30));
    expect(boat.text('outside-sector')).toContain('the middle');
    expect(boat.found[0]!.value).toBeCloseTo(12, 1);
  }
});
