import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { advance, between, type Epoch, isFrozen, moves } from '../../../shared/vessel/epochs.ts';
import { DAY, HOME, off, say } from './help.ts';

const RMC = say('GPRMC');
const GLL = say('GPGLL');

/** Freshness of a series of times of day, a second apart on the timeline. */
function series(...times: number[]): string[] {
  const epochs: Epoch[] = [];
  return times.map((time, i) => advance(epochs, RMC, 'a', time, 1000 + i));
}

describe('time of day', () => {
  test('the short way round midnight', () => {
    expect(between(86_399, 1)).toBe(2);
    expect(between(1, 86_399)).toBe(-2);
    expect(between(0, 43_200)).toBe(43_200);
    expect(between(0, 43_201)).toBe(-43_199);
  });

  test('is never more than half a day, and closes the circle', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: DAY }), fc.integer({ min: 0, max: DAY }), (a, b) => {
        const step = between(a, b);
        expect(Math.abs(step)).toBeLessThanOrEqual(DAY / 2);
        expect((((a + step - b) % DAY) + DAY) % DAY).toBe(0);
      }),
    );
  });
});

describe('a moment is new', () => {
  test('only when the time advances; the first one has nothing to compare with', () => {
    expect(series(10, 11, 11, 11, 12)).toEqual(['repeated', 'new', 'repeated', 'repeated', 'new']);
  });

  test('over midnight', () => {
    expect(series(86_398, 86_399, 0, 1)).toEqual(['repeated', 'new', 'new', 'new']);
    expect(series(86_399, 86_400, 0.5)).toEqual(['repeated', 'new', 'new']);
  });

  test('not when the time goes back, until three in a row go on from there', () => {
    expect(series(100, 101, 50, 51, 52, 53)).toEqual([
      'repeated',
      'new',
      'repeated',
      'repeated',
      'back-stepped',
      'new',
    ]);
  });

  test('not when old sentences are mixed in or the old time repeats', () => {
    expect(series(100, 101, 99, 102, 100, 103, 101, 104).filter((f) => f === 'back-stepped')).toEqual([]);
    expect(series(100, 101, 50, 50, 50, 50, 50).slice(2)).toEqual(Array(5).fill('repeated'));
  });

  test('each sentence of each talker on each input has its own time', () => {
    const epochs: Epoch[] = [];
    for (const [input, sentence] of [
      ['a', RMC],
      ['b', RMC],
      ['a', GLL],
      ['a', say('IIRMC')],
    ] as const) {
      expect(advance(epochs, sentence, input, 10, 1)).toBe('repeated');
      expect(advance(epochs, sentence, input, 11, 2)).toBe('new');
    }
  });

  test('after a night without the receiver its time starts anew, whatever it is', () => {
    const epochs: Epoch[] = [];
    advance(epochs, RMC, 'a', 40_000, 1000);
    const later = 1000 + 13 * 3600;
    expect(advance(epochs, RMC, 'a', 86_800 % DAY, later)).toBe('repeated');
    expect(advance(epochs, RMC, 'a', 401, later + 1)).toBe('new');
  });

  test('invented talkers do not grow the list without end', () => {
    const epochs: Epoch[] = [];
    for (let i = 0; i < 500; i++) advance(epochs, say(`${(i + 1000).toString(36).slice(-2)}GGA`), 'a', 10, i);
    expect(epochs.length).toBeLessThan(30);
  });
});

describe('a position without time', () => {
  test('is new when it differs from the last one', () => {
    const epochs: Epoch[] = [];
    const hear = (at: number, north: number) => moves(epochs, GLL, 'a', off(north), at);
    expect([hear(1, 0), hear(2, 2), hear(3, 2), hear(4, 2), hear(5, 0)]).toEqual([
      'repeated',
      'new',
      'repeated',
      'repeated',
      'new',
    ]);
  });

  test('or when another sentence of the same talker proves that the clock goes on', () => {
    const epochs: Epoch[] = [];
    const zda = say('GPZDA');
    moves(epochs, GLL, 'a', HOME, 0);
    advance(epochs, zda, 'a', 10, 0.5);
    expect(moves(epochs, GLL, 'a', HOME, 1)).toBe('repeated');
    advance(epochs, zda, 'a', 11, 1.5);
    expect(moves(epochs, GLL, 'a', HOME, 2)).toBe('new');
    expect(moves(epochs, GLL, 'a', HOME, 3)).toBe('repeated');
    advance(epochs, say('IIZDA'), 'a', 11, 3.5);
    advance(epochs, say('IIZDA'), 'a', 12, 4.5);
    expect(moves(epochs, GLL, 'a', HOME, 5)).toBe('repeated');
  });
});

test('what a talker reckons without time is old while its times repeat, and live when it sends none', () => {
  const epochs: Epoch[] = [];
  const vtg = say('GPVTG');
  expect(isFrozen(epochs, vtg, 'a', 0)).toBe(false);
  for (let at = 0; at < 3; at++) advance(epochs, RMC, 'a', 10 + at, at);
  expect(isFrozen(epochs, vtg, 'a', 3)).toBe(false);
  expect(isFrozen(epochs, vtg, 'a', 6)).toBe(false);
  for (let at = 3; at < 12; at++) advance(epochs, RMC, 'a', 12, at);
  expect(isFrozen(epochs, vtg, 'a', 12)).toBe(true);
  expect(isFrozen(epochs, say('IIVTG'), 'a', 12)).toBe(false);
  expect(isFrozen(epochs, vtg, 'a', 30)).toBe(false);
});
