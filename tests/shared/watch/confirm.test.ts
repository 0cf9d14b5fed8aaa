import { describe, expect, test } from 'vitest';
import { type Confirms, confirm, over, type Side, under } from '../../../shared/watch/confirm.ts';
import type { Rule } from '../../../shared/watch/limits.ts';

const T = 1_700_000_000.3;
const RULE: Rule = { raise: { after: 4, readings: 3 }, clear: { after: 10, readings: 2 }, gap: 8 };

/** Asks at T + seconds with a reading of that time; undefined side: nothing known. */
function asking(rule = RULE) {
  const confirms: Confirms = {};
  return (seconds: number, side: Side | undefined, reading = T + seconds, limit = 5) =>
    confirm(confirms, 'x', rule, { at: T + seconds, limit, side, reading });
}

describe('confirmation', () => {
  test('takes both the time and the readings', () => {
    const ask = asking();
    expect([0, 1, 2, 3].map((s) => ask(s, 'beyond'))).toEqual([false, false, false, false]);
    expect(ask(4, 'beyond')).toBe(true);
    const slow = asking();
    expect(slow(0, 'beyond')).toBe(false);
    expect(slow(5, 'beyond')).toBe(false);
    expect(slow(6, 'beyond')).toBe(true);
  });

  test('time that runs out between two readings counts at the next', () => {
    const ask = asking();
    for (const s of [0, 1, 2]) ask(s, 'beyond');
    expect([3, 4, 5].map((s) => ask(s, 'beyond', T + 2))).toEqual([false, false, false]);
    expect(ask(6, 'beyond')).toBe(true);
  });

  test('a rule that asks for no readings goes by time alone', () => {
    const ask = asking({ raise: { after: 4, readings: 0 }, clear: { after: 2, readings: 0 }, gap: 8 });
    expect([0, 2, 4].map((s) => ask(s, 'beyond', T))).toEqual([false, false, true]);
    expect([5, 7].map((s) => ask(s, 'within', T))).toEqual([true, false]);
  });

  test('the same reading asked about again is no other reading', () => {
    const ask = asking();
    for (const s of [0, 1, 2, 3, 4, 5]) expect(ask(s, 'beyond', T)).toBe(false);
  });

  test('one reading within or between breaks the run', () => {
    for (const side of ['within', 'between'] as const) {
      const ask = asking();
      for (const s of [0, 1, 2, 3]) ask(s, 'beyond');
      ask(3.5, side);
      expect([4, 5, 6, 7].map((s) => ask(s, 'beyond'))).toEqual([false, false, false, false]);
      expect(ask(8, 'beyond')).toBe(true);
    }
  });

  test('a short gap breaks nothing, a longer one breaks the run', () => {
    const short = asking();
    for (const s of [0, 1]) short(s, 'beyond');
    for (const s of [2, 5, 8]) expect(short(s, undefined)).toBe(false);
    expect(short(9, 'beyond')).toBe(true);
    const long = asking();
    for (const s of [0, 1]) long(s, 'beyond');
    expect(long(9.1, 'beyond')).toBe(false);
    expect(long(11, 'beyond')).toBe(false);
    expect(long(13.1, 'beyond')).toBe(true);
  });

  test('what holds is ended by its own rule only', () => {
    const ask = asking();
    for (const s of [0, 1, 4]) ask(s, 'beyond');
    expect(ask(5, undefined)).toBe(true);
    expect(ask(6, 'within')).toBe(true);
    expect(ask(8, 'between')).toBe(true);
    expect([9, 12, 15, 18].map((s) => ask(s, 'within'))).toEqual([true, true, true, true]);
    expect(ask(19, 'within')).toBe(false);
  });

  test('another limit: ended when no longer beyond, else it goes on; a run towards it begins anew', () => {
    const ask = asking();
    for (const s of [0, 1, 4]) ask(s, 'beyond');
    expect(ask(5, 'beyond', T + 5, 6)).toBe(true);
    expect(ask(6, 'between', T + 6, 7)).toBe(false);
    for (const s of [7, 8, 9]) ask(s, 'beyond', T + s, 7);
    expect(ask(11, 'beyond', T + 11, 7.5)).toBe(false);
  });
});

test('sides of a limit, with hysteresis', () => {
  expect([5.1, 5, 4.1, 4, 3].map((value) => over(value, 5, 1))).toEqual([
    'beyond',
    'between',
    'between',
    'within',
    'within',
  ]);
  expect([4.9, 5, 5.9, 6, 7].map((value) => under(value, 5, 1))).toEqual([
    'beyond',
    'between',
    'between',
    'within',
    'within',
  ]);
});
