import { describe, expect, test } from 'vitest';
import { towards } from '../../../shared/quantities/vector.ts';
import {
  createTidalStream,
  expectedStream,
  nextTurn,
  passTidalStream,
  type Turn,
  tellSlacks,
} from '../../../shared/tidal-stream/tidal-stream.ts';
import { turnReport } from '../../../shared/tidal-stream/words.ts';
import { SPEEDS } from '../../../shared/water/tide/speeds.ts';
import { draws } from '../soundings/bottoms.ts';

const HOUR = 3600;
const T0 = 1_700_000_400;

/** A stream of M2, S2 and K1 along 60°/240°, m/s; positive sets to 60° (speeds of the constituents [F], the rest invented). */
function tidal(seed: number) {
  const draw = draws(seed);
  const phase = [0, 1, 2].map(() => 2 * Math.PI * draw.uniform());
  const of = (speed: number, amplitude: number, k: number) => (at: number) =>
    amplitude * Math.cos((speed * Math.PI * (at - T0)) / 180 / HOUR + phase[k]!);
  const parts = [of(SPEEDS.M2, 0.7, 0), of(SPEEDS.S2, 0.22, 1), of(SPEEDS.K1, 0.1, 2)];
  const along = (at: number) => parts.reduce((sum, part) => sum + part(at), 0.03);
  const slackAfter = (at: number) => {
    for (let t = at; t < at + 14 * HOUR; t += 30) if (along(t) * along(t + 30) <= 0) return t + 15;
    throw new Error('no slack');
  };
  return { along, slackAfter, draw };
}

/** Measured each ten minutes with noise; unknown when weaker than 0.15 m/s, as a paddle wheel tells nothing near slack. */
function lived(seed: number, hours: number) {
  const { along, slackAfter, draw } = tidal(seed);
  const state = createTidalStream();
  const until = T0 + hours * HOUR;
  for (let at = T0; at <= until; at += 600) {
    const v = along(at) + 0.07 * draw.normal();
    const known = Math.abs(v) < 0.15 ? undefined : { set: v > 0 ? 60 : 240, drift: Math.abs(v) };
    // All but the last are entered by hand: a fit each ten minutes takes its time.
    if (at + 600 > until) passTidalStream(state, at, true, () => known);
    else if (known) state.samples.push({ at, stream: towards(known.drift, known.set) });
  }
  const truths = (after: number) => [
    slackAfter(after - 1.5 * HOUR),
    slackAfter(after),
    slackAfter(slackAfter(after) + HOUR),
  ];
  return { state, until, truths, along };
}

test('slack water against truth, by hours of record: forty simulated streams a row (M2, S2, K1; behaviour, no proof of physics)', () => {
  const shares: { hours: number; known: number; median: number; within: number }[] = [];
  const rows: string[] = ['hours | known | median error, min | 90 %, min | within 2 sigma'];
  for (const hours of [7, 9, 12, 18, 25, 50]) {
    const errors: number[] = [];
    let within = 0;
    for (let seed = 0; seed < 40; seed++) {
      const { state, until, truths } = lived(100 + seed, hours);
      const turn = nextTurn(state, until);
      if ('unknown' in turn) continue;
      // The slack it means may be one that is just past: the true one nearest to it counts.
      const error = Math.min(...truths(until).map((truth) => Math.abs(turn.at.value - truth)));
      errors.push(error / 60);
      if (error < 2 * turn.at.sigma + 300) within++;
    }
    errors.sort((a, b) => a - b);
    const at = (share: number) =>
      errors[Math.min(errors.length - 1, Math.floor(share * errors.length))]?.toFixed(0);
    rows.push(`${hours} | ${errors.length}/40 | ${at(0.5)} | ${at(0.9)} | ${within}/${errors.length}`);
    shares.push({
      hours,
      known: errors.length,
      median: errors[errors.length >> 1]!,
      within: within / errors.length,
    });
  }
  console.log(rows.join('\n'));
  for (const { hours, known, median, within } of shares) {
    if (hours < 12) continue;
    expect(known).toBeGreaterThan(25);
    expect(median).toBeLessThan(25);
    expect(within).toBeGreaterThan(0.75);
  }
});

test('the direction after the turn, and the stream to expect then', () => {
  const { state, until, along } = lived(7, 25);
  const turn = nextTurn(state, until) as Turn;
  const then = turn.at.value + 1.5 * HOUR;
  const sets = along(then) > 0 ? 60 : 240;
  expect(Math.abs(turn.setsAfterwards! - sets)).toBeLessThan(8);
  const stream = expectedStream(state, then)!;
  expect(Math.abs(stream.set - sets)).toBeLessThan(8);
  expect(Math.abs(stream.drift.value - Math.abs(along(then)))).toBeLessThan(0.2);
});

describe('told slacks', () => {
  test('alone, with their own sigma; the next one', () => {
    const state = createTidalStream();
    expect(tellSlacks(state, [{ at: T0 + 9 * HOUR, setsAfterwards: 240 }, { at: T0 + 3 * HOUR }])).toEqual({
      ok: true,
    });
    expect(nextTurn(state, T0)).toEqual({ at: { value: T0 + 3 * HOUR, sigma: 1200 }, from: 'table' });
    expect(nextTurn(state, T0 + 4 * HOUR)).toMatchObject({ setsAfterwards: 240, from: 'table' });
    expect(nextTurn(state, T0 + 10 * HOUR)).toEqual({
      unknown: 'The stream has not been measured here yet.',
    });
    tellSlacks(state, null);
    expect(nextTurn(state, T0)).toHaveProperty('unknown');
  });

  test('together with the record: surer than either, between the two', () => {
    const { state, until } = lived(7, 25);
    const measured = nextTurn(state, until) as Turn;
    tellSlacks(state, [{ at: measured.at.value + 1800 }]);
    const both = nextTurn(state, until) as Turn;
    expect(both.from).toBe('both');
    expect(both.at.value).toBeGreaterThan(measured.at.value);
    expect(both.at.value).toBeLessThan(measured.at.value + 1800);
    expect(both.at.sigma).toBeLessThan(Math.min(1200, measured.at.sigma));
    expect(both.setsAfterwards).toBe(measured.setsAfterwards);
  });

  test.each([
    [[], /From 1/],
    [[{ at: Number.NaN }], /no time/],
    [[{ at: T0, setsAfterwards: 400 }], /0 to 360/],
    [[{ at: T0 }, { at: T0 + 60 }], /an hour apart/],
  ])('%j is refused', (told, why) => {
    const state = createTidalStream();
    expect(tellSlacks(state, told)).toMatchObject({ ok: false, why: expect.stringMatching(why) });
    expect(state.told).toBeUndefined();
  });
});

test('another anchorage, another stream: the record ends with the mark', () => {
  const { state, until } = lived(7, 12);
  passTidalStream(state, until + 1, false, () => undefined);
  expect(state).toEqual({ samples: [] });
});

test('in words', () => {
  expect(
    turnReport(
      {
        at: { value: T0 + 2400, sigma: 900 },
        setsAfterwards: 310,
        lies: { heading: { value: 132, sigma: 30 }, drift: 0.5 },
        record: { samples: 40, span: 9 * HOUR },
      },
      T0,
    ),
  ).toBe(
    'In about 40 min (± 15 min) the stream turns and sets to 310°; she will probably lie heading SE, swung over to the NW.',
  );
  expect(turnReport({ unknown: 'x', record: { samples: 0, span: 0 } }, T0)).toBeUndefined();
});
