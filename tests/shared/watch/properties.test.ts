import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { WatchCommand } from '../../../shared/watch/watch.ts';
import { report, watchView } from '../../../shared/watch/watch.ts';
import { Afloat, MARK, settings, type Told } from './help.ts';

const told: fc.Arbitrary<Told> = fc.record(
  {
    fix: fc.double({ min: 0, max: 90, noNaN: true }),
    heading: fc.integer({ min: 0, max: 359 }),
    depth: fc.record({ measured: fc.double({ min: 0, max: 30, noNaN: true }) }),
    wind: fc.record({
      speed: fc.double({ min: 0, max: 30, noNaN: true }),
      from: fc.integer({ min: 0, max: 359 }),
    }),
    apparent: fc.double({ min: 0, max: 30, noNaN: true }),
    doubt: fc.constant('it jumped'),
  },
  { requiredKeys: [] },
);
const order: fc.Arbitrary<WatchCommand> = fc.oneof(
  fc.constantFrom<WatchCommand>(
    { do: 'mark', how: { here: true } },
    { do: 'mark', how: { ...MARK } },
    { do: 'mark', how: { bearing: 200, distance: 40 } },
    { do: 'weigh' },
    { do: 'stop-weighing' },
    { do: 'aweigh' },
    { do: 'watch', change: { circleRadius: null } },
    { do: 'watch', change: { limits: { windAbove: null, windShift: 40 } } },
  ),
  fc.record({
    do: fc.constant('watch' as const),
    change: fc.record(
      { veered: fc.double({ min: 1, max: 80, noNaN: true }), circleRadius: fc.integer({ min: 5, max: 90 }) },
      { requiredKeys: [] },
    ),
  }),
);
const life = fc.array(fc.oneof(fc.tuple(told, fc.integer({ min: 1, max: 40 })), order), { maxLength: 25 });
const limits = { depthBelow: 3, depthAbove: 20, windAbove: 15, windShift: 60 };

test('any life: findings are one a kind and only with a mark, state and views are plain data without holes', () => {
  fc.assert(
    fc.property(life, (steps) => {
      const boat = new Afloat(settings({ limits, circle: { margin: 6 } }));
      for (const step of steps) {
        if (Array.isArray(step)) boat.pass(step[1], step[0]);
        else boat.order(step);
        const kinds = boat.kinds();
        expect(new Set(kinds).size).toBe(kinds.length);
        if (boat.state.phase === 'no-mark' && Array.isArray(step)) expect(kinds).toEqual([]);
        const view = watchView(boat.state, boat.settings, boat.view());
        for (const data of [boat.state, boat.found, view]) {
          expect(JSON.parse(JSON.stringify(data))).toStrictEqual(data);
        }
        expect((view.circle?.radius ?? 1) > 0).toBe(true);
        const sentence = report(view, boat.view(), []);
        expect(sentence).not.toMatch(/undefined|NaN|null|-0/);
        for (const { text } of boat.found) expect(text).not.toMatch(/undefined|NaN|null|-0/);
      }
    }),
    { numRuns: 150 },
  );
});

test('a watch restored from JSON after a power cut goes on as if nothing had happened', () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(told, fc.integer({ min: 1, max: 20 })), { maxLength: 15 }), (steps) => {
      const whole = Afloat.watching(settings({ limits }));
      const cut = Afloat.watching(settings({ limits }));
      for (const [now, seconds] of steps) {
        const restored = JSON.parse(JSON.stringify(cut.state));
        for (const key of Object.keys(cut.state)) Reflect.deleteProperty(cut.state, key);
        Object.assign(cut.state, restored);
        expect(cut.pass(seconds, now)).toEqual(whole.pass(seconds, now));
        expect(cut.found).toEqual(whole.found);
      }
    }),
    { numRuns: 60 },
  );
});
