import { describe, expect, test } from 'vitest';
import {
  type CheckState,
  COMMON_ITEMS,
  checkView,
  departureCheck,
  setItems,
} from '../../../shared/weigh/check.ts';
import type { CheckItem } from '../../../shared/weigh/check-view.ts';

/** The departure check by itself: list, ticks, what is kept and what goes to the journal. */
const AT = 1_700_000_000;
const GOOD: CheckItem = { item: 'wind', state: 'good', text: 'Wind 8 kn.' };
const LOOK: CheckItem = { item: 'stream', state: 'look', text: 'Stream 2 kn.' };
const UNKNOWN: CheckItem = { item: 'depth', state: 'unknown', text: 'No depth.' };

const own = (...items: string[]): CheckState => {
  const state: CheckState = {};
  expect(setItems(state, items, 'Ann').answer).toEqual({ ok: true });
  return state;
};

describe('what is shown', () => {
  test('the common list before anybody has made another, and nothing of a check that was not made', () => {
    expect(checkView(undefined, [GOOD], undefined)).toStrictEqual({
      measured: [GOOD],
      items: [...COMMON_ITEMS],
    });
    expect(checkView({}, [], AT)).toStrictEqual({ measured: [], items: [...COMMON_ITEMS] });
    expect(COMMON_ITEMS.length).toBeGreaterThan(4);
  });

  test('the crew’s own list as their own', () => {
    expect(checkView(own('Keys'), [], AT)).toStrictEqual({ measured: [], items: ['Keys'], own: true });
  });

  test('the last check of this anchorage, not that of the one before', () => {
    const state = own('Keys');
    departureCheck(state, [], [], AT, 'Ann');
    for (const [since, shown] of [
      [undefined, true],
      [AT - 1, true],
      [AT, true],
      [AT + 1, false],
    ] as const)
      expect('last' in checkView(state, [], since)).toBe(shown);
  });
});

describe('a check', () => {
  test('keeps who, when, ticks in the order of the list, what is open and what is not good', () => {
    const state = own('Keys', 'Fuel', 'Lines');
    const { answer, words } = departureCheck(state, [GOOD, LOOK, UNKNOWN], ['Lines', 'Keys'], AT, 'Ann');
    expect(answer).toEqual({ ok: true });
    expect(state.last).toEqual({
      at: AT,
      by: 'Ann',
      ticked: ['Keys', 'Lines'],
      open: ['Fuel'],
      look: [LOOK, UNKNOWN],
    });
    expect(words).toBe('Departure check by Ann: 2 of 3 ticked; open: Fuel. Stream 2 kn. No depth.');
  });

  test('with all ticked and all good it says no more than that', () => {
    const state = own('Keys', 'Fuel');
    expect(departureCheck(state, [GOOD], ['Keys', 'Fuel'], AT, 'Bo').words).toBe(
      'Departure check by Bo: 2 of 2 ticked.',
    );
    expect(departureCheck(state, [GOOD], [], AT, 'Bo').words).toBe(
      'Departure check by Bo: 0 of 2 ticked; open: Keys, Fuel.',
    );
  });

  test('refuses a tick that is not on the list, names what is, and keeps nothing', () => {
    const state = own('Keys', 'Fuel');
    expect(departureCheck(state, [], ['Keys', 'Moon'], AT, 'Ann')).toEqual({
      answer: { ok: false, problem: 'refused', why: '"Moon" is not on the list: Keys; Fuel.' },
    });
    expect(state.last).toBeUndefined();
  });
});

describe('the crew’s own list', () => {
  test('is trimmed, kept and told; null is the common one again', () => {
    const state: CheckState = {};
    expect(setItems(state, [' Keys ', 'Fuel'], 'Ann')).toEqual({
      answer: { ok: true },
      words: 'Departure check, list changed by Ann: Keys; Fuel.',
    });
    expect(state.items).toEqual(['Keys', 'Fuel']);
    expect(setItems(state, null, 'Bo')).toEqual({
      answer: { ok: true },
      words: 'Departure check by Bo: the common list again.',
    });
    expect(state).not.toHaveProperty('items');
  });

  test('has 1 to 30 different items of 1 to 60 letters; else it is refused and the old one stands', () => {
    const many = (n: number) => Array.from({ length: n }, (_, i) => `item ${i}`);
    for (const good of [many(30), ['x'], ['x'.repeat(60)]])
      expect(setItems({}, good, 'Ann').answer.ok).toBe(true);
    for (const [bad, why] of [
      [many(31), /30/],
      [['Keys', ''], /1 to 60/],
      [['Keys', '   '], /1 to 60/],
      [['Keys', 'x'.repeat(61)], /1 to 60/],
      [['Keys', ' Keys'], /twice/],
    ] as const) {
      const state = own('Old');
      expect(setItems(state, bad, 'Ann').answer).toMatchObject({
        ok: false,
        problem: 'refused',
        why: expect.stringMatching(why),
      });
      expect(state.items).toEqual(['Old']);
    }
  });
});
