import { describe, expect, test } from 'vitest';
import { markRequest, trackQuery, watchRequest } from '../../../shared/messages/requests.ts';

/** What the calls accept, and what they say of anything else. */
const why = (result: { success: boolean; error?: { issues: { message: string }[] } }) =>
  result.error?.issues.map(({ message }) => message).join('; ');

describe('the query of a track', () => {
  test('is text that holds numbers; a blank is not a zero', () => {
    expect(trackQuery.parse({ from: '10', to: '20.5', step: '0' })).toEqual({ from: 10, to: 20.5, step: 0 });
    expect(trackQuery.parse({})).toEqual({});
    for (const bad of [{ from: '' }, { from: '  ' }, { to: 'noon' }, { step: '-1' }, { step: '90000' }])
      expect(trackQuery.safeParse(bad).success).toBe(false);
  });

  test('does not run backwards', () => {
    expect(trackQuery.safeParse({ from: '5', to: '5' }).success).toBe(true);
    expect(why(trackQuery.safeParse({ from: '6', to: '5' }))).toMatch(/from ≤ to/);
  });
});

test('a member that is not known is refused, and the known ones are named', () => {
  expect(why(trackQuery.safeParse({ form: '5' }))).toBe('expected from, to, step');
  expect(why(watchRequest.safeParse({ limits: { depthBellow: 2 } }))).toMatch(
    /expected depthBelow, depthAbove/,
  );
});

test('a mark has one of five forms', () => {
  for (const good of [
    {},
    { lat: 1, lon: 2 },
    { bearing: 45, distance: 40 },
    { fromTrack: true },
    { setBack: true },
  ])
    expect(markRequest.safeParse(good).success).toBe(true);
  for (const bad of [
    { lat: 1 },
    { lat: 1, lon: 2, bearing: 3 },
    { bearing: 45 },
    { fromTrack: true, lat: 1 },
  ])
    expect(why(markRequest.safeParse(bad))).toMatch(/expected \{\}/);
});

test('a change of the watch changes something', () => {
  expect(why(watchRequest.safeParse({}))).toMatch(/at least one/);
  expect(watchRequest.safeParse({ circleRadius: null }).success).toBe(true);
});
