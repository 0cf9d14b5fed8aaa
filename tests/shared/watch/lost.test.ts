import { describe, expect, test } from 'vitest';
import { Afloat, settings, type Told } from './help.ts';

const all: Told = {
  fix: 20,
  heading: 0,
  depth: { measured: 5, surface: 5.5 },
  wind: { speed: 5, from: 200 },
};
const without = (...names: (keyof Told)[]): Told =>
  Object.fromEntries(Object.entries(all).filter(([name]) => !names.includes(name as keyof Told)));

const CASES = [
  { kind: 'heading-lost', member: 'heading', after: 15, limits: {}, priority: 'caution' },
  { kind: 'wind-lost', member: 'wind', after: 20, limits: {}, priority: 'caution' },
  { kind: 'wind-lost', member: 'wind', after: 20, limits: { windAbove: 15 }, priority: 'warning' },
  { kind: 'wind-lost', member: 'wind', after: 20, limits: { windShift: 60 }, priority: 'warning' },
  { kind: 'depth-lost', member: 'depth', after: 20, limits: {}, priority: 'caution' },
  { kind: 'depth-lost', member: 'depth', after: 20, limits: { depthBelow: 2 }, priority: 'warning' },
  { kind: 'depth-lost', member: 'depth', after: 20, limits: { depthAbove: 20 }, priority: 'warning' },
] as const;

for (const { kind, member, after, limits, priority } of CASES) {
  describe(`${kind} with ${JSON.stringify(limits)}`, () => {
    const lying = (): Afloat => {
      const boat = Afloat.watching(settings({ limits }));
      expect(boat.pass(10, all)).toEqual([]);
      return boat;
    };

    test(`is a ${priority} when the last value is older than ${after} s`, () => {
      const boat = lying();
      expect(boat.pass(40, without(member))).toEqual([`${after}.0 +${kind}`]);
      expect(boat.found[0]).toMatchObject({ priority, limit: after });
    });

    test(`is not raised by a value each ${after} s`, () => {
      const rare = (second: number): Told => (second % after === 0 ? all : without(member));
      expect(lying().pass(300, rare)).toEqual([]);
    });

    test('ends when the value has come for ten seconds', () => {
      const boat = lying();
      boat.pass(30, without(member));
      boat.pass(1, all);
      expect(boat.text(kind)).toMatch(/comes again/);
      expect(boat.pass(20, all)).toEqual([`9.2 -${kind}`]);
    });

    test('is no loss when it was never known since the watch began', () => {
      const boat = new Afloat(settings({ limits }));
      boat.pass(10, all);
      boat.pass(1, without(member));
      boat.order({ do: 'mark', how: { here: true } });
      expect(boat.pass(60, without(member))).toEqual([]);
    });
  });
}

describe('a limit that nothing is measured for', () => {
  test('is said to be unwatched after a minute, as a caution, and not without a limit', () => {
    const boat = Afloat.watching(settings({ limits: { depthBelow: 2, windAbove: 15 } }));
    expect(boat.pass(90, without('depth', 'wind'))).toEqual(['60.2 +wind-lost', '60.2 +depth-lost']);
    expect(boat.found.map(({ priority, text }) => [priority, text])).toEqual([
      ['caution', 'No wind since the watch began: limits of the wind are not watched.'],
      ['caution', 'No depth since the watch began: limits of the depth are not watched.'],
    ]);
    expect(Afloat.watching(settings()).pass(300, without('depth', 'wind', 'heading'))).toEqual([]);
  });

  test('goes as soon as the value comes', () => {
    const boat = Afloat.watching(settings({ limits: { depthBelow: 2 } }));
    boat.pass(90, without('depth'));
    expect(boat.pass(1, all)).toEqual(['0.2 -depth-lost']);
  });

  test('includes a shift while the wind has no direction over ground', () => {
    const boat = Afloat.watching(settings({ limits: { windShift: 60 } }));
    boat.pass(10, all);
    expect(boat.pass(120, { ...without('wind'), apparent: 5 })).toEqual(['65.0 +wind-lost']);
    expect(boat.found[0]).toMatchObject({
      priority: 'caution',
      text: expect.stringMatching(/direction of the wind/),
    });
    expect(boat.pass(1, all)).toEqual(['0.2 -wind-lost']);
  });
});
