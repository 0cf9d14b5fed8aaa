import { describe, expect, test } from 'vitest';
import { clockOffset, createTime, hearTime, utcOf } from '../../../shared/vessel/time.ts';
import { DAY, midnight, START, timeOfDay } from './help.ts';

const dated = (utc: number) => ({ kind: 'time', timeOfDay: timeOfDay(utc), date: midnight(utc) }) as const;
const undated = (utc: number) => ({ kind: 'time', timeOfDay: timeOfDay(utc) }) as const;
const date = (text: string) => Date.parse(`${text}Z`) / 1000;

describe('UTC of a sentence', () => {
  const state = createTime();

  test('with a date is what it says', () => {
    expect(utcOf(state, dated(START), START + 3)).toBe(START);
  });

  test('without a date takes the day that brings it within 12 h, either side of midnight', () => {
    const evening = date('2026-07-04T23:59:59.800');
    expect(utcOf(state, { kind: 'time', timeOfDay: 0 }, evening)).toBe(date('2026-07-05T00:00:00'));
    const morning = date('2026-07-05T00:00:00.500');
    expect(utcOf(state, { kind: 'time', timeOfDay: 86_399 }, morning)).toBe(date('2026-07-04T23:59:59'));
  });

  test('a date that has once been told holds against a computer that does not know the date', () => {
    const told = createTime();
    hearTime(told, dated(START), 100);
    expect(utcOf(told, undated(START + 13 * 3600), 100 + 13 * 3600)).toBe(START + 13 * 3600);
  });

  /** gpsd's april6_2019.log and gp-320fw logs: receivers that sent 1999-08-22 on 2019-04-07 (reference §5 #6). */
  test('a receiver that has lost a cycle of 1024 weeks is set right', () => {
    const sent = { kind: 'time', timeOfDay: 151, date: date('1999-08-22T00:00:00') } as const;
    expect(utcOf(state, sent, date('2019-04-07T00:02:30'))).toBe(date('2019-04-07T00:02:31'));
  });

  test('two cycles as well, and a date of the next cycle back again', () => {
    const cycle = 1024 * 7 * DAY;
    expect(utcOf(state, dated(START - 2 * cycle), START)).toBe(START);
    expect(utcOf(state, dated(START + cycle), START)).toBe(START);
  });

  test('a difference of less than 512 weeks is left alone', () => {
    const sent = START - 511 * 7 * DAY;
    expect(utcOf(state, dated(sent), START)).toBe(sent);
  });

  test('a computer clock that was never set judges no receiver', () => {
    expect(utcOf(state, dated(START), 12)).toBe(START);
  });
});

describe('clock offset', () => {
  /** Seconds of samples, each with its offset. */
  function sampled(...offsets: number[]) {
    const state = createTime();
    for (const [i, offset] of offsets.entries()) hearTime(state, dated(START + i + offset), START + i);
    return { state, offset: clockOffset(state, START + offsets.length) };
  }

  test('is not told before a receiver has told the time', () => {
    expect(clockOffset(createTime(), START)).toBeUndefined();
  });

  test('follows the receiver, not single outliers', () => {
    const samples = Array.from({ length: 60 }, (_, i) => (i % 10 === 7 ? 3600 : 30 - 0.3 * (i % 3)));
    expect(sampled(...samples).offset).toBeGreaterThan(29);
    expect(sampled(...samples).offset).toBeLessThan(30.2);
  });

  test('a first sample that is wrong (cold start in 1980) is left after five good ones', () => {
    const cold = date('1980-01-06T00:00:10') - START;
    expect(sampled(cold, 0, 0, 0, 0, 0).offset).toBe(0);
  });

  test('a step of the receiver or the computer is followed once five samples agree', () => {
    expect(sampled(0, 0, 0, 40, 40, 40, 40).offset).toBe(0);
    expect(sampled(0, 0, 0, 40, 40, 40, 40, 40).offset).toBe(40);
  });

  test('is no longer told a minute after the last confirmation', () => {
    const { state } = sampled(5, 5, 5);
    expect(clockOffset(state, START + 62)).toBe(5);
    expect(clockOffset(state, START + 63)).toBeUndefined();
  });
});
