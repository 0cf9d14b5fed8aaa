import { expect, test } from 'vitest';
import { BATTERY_LOW, lacks, wouldWake } from '../../shared/phone.ts';

/** Would this phone wake a sleeper? By what its page has told. */
const ready = { armed: true, silent: false, visible: true, sound: true, wakeLock: 'held' as const };

test('a phone that shows the page, may sound and stays awake would wake', () => {
  expect(lacks(ready)).toEqual([]);
  expect(wouldWake(ready)).toBe(true);
  expect(wouldWake({ ...ready, wakeLock: 'as-told' })).toBe(true);
  expect(wouldWake({ ...ready, armed: false })).toBe(false);
});

test.each([
  [{ visible: false }, 'hidden'],
  [{ sound: false }, 'sound'],
  [{ wakeLock: 'lost' as const }, 'wake-lock'],
  [{ wakeLock: 'absent' as const }, 'wake-lock'],
  [{ charging: false, battery: BATTERY_LOW }, 'battery'],
])('%o would not, for want of %s', (more, lack) => {
  expect(lacks({ ...ready, ...more })).toEqual([lack]);
  expect(wouldWake({ ...ready, ...more })).toBe(false);
});

test('a battery on the charger, full enough, or of which nothing is told is no lack', () => {
  for (const more of [
    { charging: true, battery: 0.05 },
    { charging: false, battery: BATTERY_LOW + 0.01 },
    { charging: false },
    { battery: 0.05 },
  ])
    expect(lacks({ ...ready, ...more })).toEqual([]);
});

test('the gravest comes first; of a page that has fallen silent nothing else counts', () => {
  const bad = { ...ready, visible: false, sound: false, wakeLock: 'lost' as const };
  expect(lacks(bad)).toEqual(['hidden', 'sound', 'wake-lock']);
  expect(lacks({ ...bad, silent: true })).toEqual(['silent']);
});
