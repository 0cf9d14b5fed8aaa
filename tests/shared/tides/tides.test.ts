import { describe, expect, test } from 'vitest';
import {
  createTides,
  findLowWater,
  passTides,
  tellTide,
  tideAt,
  tideView,
} from '../../../shared/tides/tides.ts';
import type { TideTold } from '../../../shared/tides/view.ts';
import type { VesselView } from '../../../shared/vessel/view.ts';

const HOUR = 3600;
const NOON = Date.UTC(2026, 2, 14, 12) / 1000;
const afloat = (at: number, surface?: number): VesselView => ({
  at,
  ...(surface === undefined
    ? {}
    : { depth: { value: { measured: surface, surface }, at, age: 0, source: 'test' } }),
  ages: {},
  sources: {},
});

/** Invented waters, for behaviour: high 4 m at noon, low 1 m at 18:12, and so on. */
const table = (count = 6): TideTold => ({
  turns: Array.from({ length: count }, (_, i) => ({
    at: NOON + i * 6.2 * HOUR,
    height: i % 2 === 0 ? 4 : 1,
  })),
  place: 'Pinnet Cove',
  source: 'typed in',
});

describe('a tide table', () => {
  test('published: Montague Harbour, 1 Oct 2003 (CHS example, sailnet.com [F]): 0700 → 5.8 ft', () => {
    const state = createTides();
    const day = Date.UTC(2003, 9, 1) / 1000;
    const turns = [
      { at: day + 3.45 * HOUR, height: 2.2 },
      { at: day + (11 + 41 / 60) * HOUR, height: 11.4 },
    ];
    expect(tellTide(state, { turns }, 'Ann', day + 7 * HOUR)).toEqual({ ok: true });
    expect(tideAt(state, day + 7 * HOUR)).toBeCloseTo(5.813106, 2);
  });

  test('height, turns, rise and least water ahead', () => {
    const state = createTides();
    tellTide(state, table(), 'Ann', NOON + HOUR);
    const view = tideView(state, afloat(NOON + 3.1 * HOUR, 5), 1.9)!;
    expect(view).toMatchObject({ from: 'table', place: 'Pinnet Cove', by: 'Ann' });
    expect(view.height).toBeCloseTo(2.5, 2);
    expect(view.rising).toBeLessThan(0);
    expect(view.turns.slice(0, 2)).toEqual([
      { at: NOON, height: 4, high: true },
      { at: NOON + 6.2 * HOUR, height: 1, high: false },
    ]);
    expect(view.least).toMatchObject({ at: NOON + 6.2 * HOUR });
    expect(view.least!.depth).toBeCloseTo(3.5, 2);
    expect(view.least!.underKeel).toBeCloseTo(1.6, 2);
  });

  test('says where it ends, and nothing beyond', () => {
    const state = createTides();
    tellTide(state, table(2), 'Ann', NOON);
    expect(tideView(state, afloat(NOON + 5 * HOUR), 1.9)!.ends).toBeGreaterThan(NOON + 6 * HOUR);
    for (let at = NOON; at < NOON + 7 * HOUR; at += 600) passTides(state, at);
    expect(tideAt(state, NOON + 7 * HOUR)).toBeUndefined();
    const late = tideView(state, afloat(NOON + 7 * HOUR, 5), 1.9)!;
    expect(late.height).toBeUndefined();
    expect(late.least).toBeUndefined();
    expect(late.unknown).toMatch(/ended/);
  });

  test('before its first water it says so', () => {
    const state = createTides();
    tellTide(state, table(), 'Ann', NOON - 3 * HOUR);
    expect(tideView(state, afloat(NOON - 3 * HOUR), 1.9)!.unknown).toMatch(/still to come/);
  });

  test.each<[TideTold, RegExp]>([
    [{}, /either/],
    [{ ...table(), harmonic: { constituents: [], meanLevel: 0 } }, /either/],
    [table(1), /2 to 120/],
    [
      {
        turns: [
          { at: NOON, height: 4 },
          { at: NOON + 600, height: 1 },
        ],
      },
      /between the waters/,
    ],
    [
      {
        turns: [
          { at: NOON, height: 4 },
          { at: NOON + 30 * HOUR, height: 1 },
        ],
      },
      /missing/,
    ],
    [{ turns: [...table(3).turns!.slice(0, 2), { at: NOON + 12.4 * HOUR, height: 0.5 }] }, /take turns/],
    [
      {
        turns: [
          { at: NOON, height: 4 },
          { at: NOON + 6 * HOUR, height: 40 },
        ],
      },
      /40 m/,
    ],
    [
      {
        turns: [
          { at: NOON, height: 4 },
          { at: NOON + 6 * HOUR, height: 4 },
        ],
      },
      /same height/,
    ],
    [{ harmonic: { constituents: [{ name: 'XX9', amplitude: 1, phase: 0 }], meanLevel: 0 } }, /XX9/],
  ])('%j is refused, and what was known stays', (told, why) => {
    const state = createTides();
    tellTide(state, table(), 'Ann', NOON);
    expect(tellTide(state, told, 'Ann', NOON)).toMatchObject({ ok: false, why: expect.stringMatching(why) });
    expect(tideAt(state, NOON + HOUR)).toBeDefined();
  });
});

describe('constituents', () => {
  /** Open tide library's fixture, Monterey (feet as metres here; [C] of the physics reference §5: five constituents only). */
  const five: TideTold = {
    harmonic: {
      meanLevel: 0,
      constituents: [
        { name: 'M2', amplitude: 1.61, phase: 181.3 },
        { name: 'S2', amplitude: 0.43, phase: 180.1 },
        { name: 'N2', amplitude: 0.37, phase: 155.0 },
        { name: 'K1', amplitude: 1.2, phase: 219.6 },
        { name: 'O1', amplitude: 0.75, phase: 203.5 },
      ],
    },
  };
  const start = Date.UTC(2019, 8, 1) / 1000;

  test('09:00Z 1.100150, 12:00Z −2.322214 within a centimetre of the reference', () => {
    const state = createTides();
    expect(tellTide(state, five, 'Ann', start)).toEqual({ ok: true });
    expect(tideAt(state, start + 9 * HOUR)).toBeCloseTo(1.10015, 1);
    expect(tideAt(state, start + 12 * HOUR)).toBeCloseTo(-2.322214, 1);
    expect(Math.abs(tideAt(state, start + 12 * HOUR)! + 2.322214)).toBeLessThan(0.02);
  });

  test('goes on for days: what is reckoned is reckoned anew', () => {
    const state = createTides();
    tellTide(state, five, 'Ann', start);
    const fresh = createTides();
    tellTide(fresh, five, 'Ann', start + 72 * HOUR);
    for (let at = start; at <= start + 72 * HOUR; at += 600) passTides(state, at);
    expect(tideAt(state, start + 80 * HOUR)).toBeCloseTo(tideAt(fresh, start + 80 * HOUR)!, 9);
    expect(tideView(state, afloat(start + 72 * HOUR), 1.9)!.curve.heights.length).toBeGreaterThan(140);
  });
});

describe('low-water', () => {
  const draft = 1.9;
  function lived(surfaceAtHigh: number) {
    const state = createTides();
    tellTide(state, table(), 'Ann', NOON);
    let raised: number | undefined;
    let text = '';
    for (let at = NOON; at < NOON + 2 * HOUR; at++) {
      passTides(state, at);
      const surface = surfaceAtHigh + tideAt(state, at)! - 4;
      const found = findLowWater(state, afloat(at, surface), draft);
      if (found && raised === undefined) {
        raised = at - NOON;
        text = found.text;
        expect(found).toMatchObject({ kind: 'low-water', priority: 'caution', limit: 0.5 });
      }
    }
    return { raised, text, state };
  }

  test('is told hours before, after a minute of depths', () => {
    const { raised, text } = lived(5.2);
    expect(raised).toBe(60);
    expect(text).toBe(
      'In 6 h 10 min, at low water, 0.3 m under the keel where she lies; the limit is 0.5 m.',
    );
  });

  test('says when she will be aground', () => {
    expect(lived(4.5).text).toMatch(/aground where she lies: 0\.4 m less than her draft/);
  });

  test('not with enough water, and it goes when there is enough for five minutes', () => {
    expect(lived(5.5).raised).toBeUndefined();
    const { state } = lived(5.2);
    const at = NOON + 2 * HOUR;
    const deep = (t: number) => findLowWater(state, afloat(t, 8), draft);
    expect(deep(at)).toBeDefined();
    expect(deep(at + 299)).toBeDefined();
    expect(deep(at + 300)).toBeUndefined();
  });

  test('a sounder that falls silent does not end it', () => {
    const { state } = lived(5.2);
    const found = findLowWater(state, afloat(NOON + 3 * HOUR), draft);
    expect(found!.text).toMatch(/when last seen; there is no depth now/);
  });

  test('without a tide nothing is found', () => {
    expect(findLowWater(createTides(), afloat(NOON, 1), draft)).toBeUndefined();
  });
});

describe('the ends of what is known', () => {
  test('a table that begins later, and one that has ended, say which', () => {
    const before = createTides();
    tellTide(before, table(), 'Ann', NOON - 6 * HOUR);
    expect(tideView(before, afloat(NOON - 6 * HOUR), 1.9)!.unknown).toMatch(/still to come/);
    const after = createTides();
    tellTide(after, table(2), 'Ann', NOON + 30 * HOUR);
    const view = tideView(after, afloat(NOON + 30 * HOUR), 1.9)!;
    expect(view.unknown).toMatch(/has ended/);
    expect(view).not.toHaveProperty('height');
    expect(view).not.toHaveProperty('rising');
    expect(view).not.toHaveProperty('least');
  });

  test('at the last height of the curve it is still known, a second on it is not', () => {
    const state = createTides();
    tellTide(state, table(2), 'Ann', NOON + HOUR);
    const last = state.reckoned!.curve.from + 600 * (state.reckoned!.curve.heights.length - 1);
    expect(tideAt(state, last)).toBe(state.reckoned!.curve.heights.at(-1));
    expect(tideAt(state, last + 1)).toBeUndefined();
    expect(tideAt(state, state.reckoned!.curve.from - 1)).toBeUndefined();
    expect(tideView(state, afloat(NOON + 2 * HOUR), 1.9)!.ends).toBe(last);
  });

  test('forgotten, there is no tide', () => {
    const state = createTides();
    tellTide(state, table(), 'Ann', NOON);
    expect(tellTide(state, null, 'Ann', NOON)).toEqual({ ok: true });
    expect(tideView(state, afloat(NOON, 5), 1.9)).toBeUndefined();
    expect(tideAt(state, NOON)).toBeUndefined();
  });

  test('low water is told in words of time: now, in minutes, in hours', () => {
    const told = (hours: number) => {
      const at = NOON + 6.2 * HOUR - hours * HOUR;
      const state = createTides();
      tellTide(state, table(), 'Ann', at);
      let text: string | undefined;
      for (let second = 0; second <= 61; second++)
        text = findLowWater(state, { ...afloat(at + second, 2), at: at + second }, 1.9)?.text;
      return text;
    };
    expect(told(0.03)).toMatch(/^Now/);
    expect(told(0.5)).toMatch(/^In (20|30) min/);
    expect(told(2.02)).toMatch(/^In 2 h[^ ]* /);
    expect(told(2.5)).toMatch(/^In 2 h (20|30) min/);
  });
});
