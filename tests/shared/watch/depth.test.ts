import { describe, expect, test } from 'vitest';
import { Afloat, settings, type Told } from './help.ts';

const water = (surface: number): Told => ({
  fix: 20,
  heading: 0,
  depth: { measured: surface - 0.5, surface },
});

function lying(limits = { depthBelow: 2.5, depthAbove: 12 }): Afloat {
  const boat = Afloat.watching(settings({ limits }));
  expect(boat.pass(10, water(5))).toEqual([]);
  return boat;
}

const CASES = [
  {
    kind: 'shoal' as const,
    priority: 'alarm',
    limit: 2.5,
    beyond: 2.4,
    onIt: 2.5,
    between: 2.6,
    within: 2.75,
    text: 'Shoal: 2.4 m of water, less than the limit of 2.5 m.',
    back: 'Was shoal: 2.8 m of water now, limit 2.5 m.',
    unseen: 'Less water than the limit of 2.5 m when last measured; there is no depth now.',
  },
  {
    kind: 'deep' as const,
    priority: 'warning',
    limit: 12,
    beyond: 12.1,
    onIt: 12,
    between: 11.9,
    within: 11.75,
    text: 'Deep: 12.1 m of water, more than the limit of 12.0 m.',
    back: 'Was deep: 11.8 m of water now, limit 12.0 m.',
    unseen: 'More water than the limit of 12.0 m when last measured; there is no depth now.',
  },
];

for (const c of CASES) {
  describe(c.kind, () => {
    const there = (): Afloat => {
      const boat = lying();
      boat.pass(6, water(c.beyond));
      expect(boat.kinds()).toEqual([c.kind]);
      return boat;
    };

    test('is raised after five seconds and three readings beyond the limit', () => {
      const boat = lying();
      expect(boat.pass(10, water(c.beyond))).toEqual([`5.2 +${c.kind}`]);
      expect(boat.found).toEqual([
        { kind: c.kind, priority: c.priority, text: c.text, value: c.beyond, limit: c.limit },
      ]);
    });

    test('waits for the third reading of a slow sounder', () => {
      const slow = (second: number): Told => (second % 4 === 0 ? water(c.beyond) : { fix: 20, heading: 0 });
      expect(lying().pass(12, slow)).toEqual([`8.2 +${c.kind}`]);
    });

    test('is not raised on the limit, nor by four seconds beyond it', () => {
      const boat = lying();
      expect(boat.pass(60, water(c.onIt))).toEqual([]);
      boat.pass(4, water(c.beyond));
      expect(boat.pass(60, water(c.onIt))).toEqual([]);
    });

    test('ends after thirty seconds back by more than 0.2 m', () => {
      const boat = there();
      boat.pass(1, water(c.within));
      expect(boat.text(c.kind)).toBe(c.back);
      expect(boat.pass(40, water(c.within))).toEqual([`29.2 -${c.kind}`]);
    });

    test('does not end within 0.2 m of the limit', () => {
      expect(there().pass(300, water(c.between))).toEqual([]);
    });

    test('stays while no depth comes, without a figure', () => {
      const boat = there();
      expect(boat.pass(100, { fix: 20, heading: 0 })).toEqual(['20.0 +depth-lost']);
      expect(boat.found[0]).toEqual({
        kind: c.kind,
        priority: c.priority,
        text: c.unseen,
        limit: c.limit,
      });
    });

    test('ends at once when its limit is taken away or set beyond the depth', () => {
      const none = there();
      none.order({ do: 'watch', change: { limits: { depthBelow: null, depthAbove: null } } });
      expect(none.pass(1, water(c.beyond))).toEqual([`0.2 -${c.kind}`]);
      const other = there();
      other.order({ do: 'watch', change: { limits: { depthBelow: 1, depthAbove: 20 } } });
      expect(other.pass(1, water(c.beyond))).toEqual([`0.2 -${c.kind}`]);
    });

    test('stays, without a second start, when its limit is moved and she is still beyond it', () => {
      const boat = there();
      boat.order({ do: 'watch', change: { limits: { depthBelow: 2.45, depthAbove: 12.05 } } });
      expect(boat.pass(20, water(c.beyond))).toEqual([]);
    });
  });
}

test('a depth whose reference is not known is judged as measured, and the text says so', () => {
  const boat = lying();
  boat.pass(10, { fix: 20, heading: 0, depth: { measured: 2.1 } });
  expect(boat.text('shoal')).toBe(
    'Shoal: 2.1 m of water below the transducer, less than the limit of 2.5 m.',
  );
});

test('without limits no depth is shoal or deep', () => {
  const boat = Afloat.watching(settings());
  expect(boat.pass(60, water(0.5))).toEqual([]);
  expect(boat.pass(60, water(200))).toEqual([]);
});
