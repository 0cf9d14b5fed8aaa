import { describe, expect, test } from 'vitest';
import { Afloat, settings, type Told } from './help.ts';

const fix: Told = { fix: 20, heading: 0 };

describe('position-lost', () => {
  test('is raised when there is no fresh fix for more than 8 s: within 10 s (IMO A.1046(27) [F])', () => {
    const boat = Afloat.watching(settings());
    expect(boat.pass(30, fix)).toEqual([]);
    expect(boat.pass(60, { heading: 0 })).toEqual(['8.0 +position-lost']);
    expect(boat.found[0]).toMatchObject({ priority: 'alarm', limit: 8 });
    expect(boat.found[0]!.value).toBeCloseTo(60.8, 3);
    expect(boat.text('position-lost')).toBe('No position for 61 s: hawse cannot see whether she holds.');
  });

  test('is raised when there never was a fix, counted from the beginning of the watch', () => {
    const boat = Afloat.watching(settings());
    expect(boat.pass(20, { heading: 0 })).toEqual(['9.0 +position-lost']);
    expect(boat.text('position-lost')).toBe(
      'No position since the watch began 20 s ago: hawse cannot see whether she holds.',
    );
  });

  test('is not raised by a fix each eight seconds', () => {
    const boat = Afloat.watching(settings());
    expect(boat.pass(600, (second) => (second % 8 === 0 ? fix : { heading: 0 }))).toEqual([]);
  });

  test('ends with the third fresh fix, not with the first', () => {
    const boat = Afloat.watching(settings());
    boat.pass(20, { heading: 0 });
    boat.pass(1, fix);
    expect(boat.text('position-lost')).toBe('Positions come again; hawse waits for three.');
    expect(boat.pass(5, fix)).toEqual(['1.2 -position-lost']);
  });

  test('does not end by two fixes and another gap', () => {
    const boat = Afloat.watching(settings());
    boat.pass(20, { heading: 0 });
    boat.pass(2, fix);
    boat.pass(10, { heading: 0 });
    expect(boat.pass(2, fix)).toEqual([]);
    expect(boat.pass(1, fix)).toEqual(['0.2 -position-lost']);
  });
});

describe('position-doubtful', () => {
  test('is a warning for as long as the doubt holds', () => {
    const boat = Afloat.watching(settings());
    boat.pass(10, fix);
    expect(boat.pass(10, { ...fix, doubt: 'the receiver repeats itself.' })).toEqual([
      '0.2 +position-doubtful',
    ]);
    expect(boat.found[0]).toEqual({
      kind: 'position-doubtful',
      priority: 'warning',
      text: 'The position is doubtful: the receiver repeats itself.',
    });
    expect(boat.pass(1, fix)).toEqual(['0.2 -position-doubtful']);
  });

  test('is not raised without a doubt', () => {
    expect(Afloat.watching(settings()).pass(100, fix)).toEqual([]);
  });
});
