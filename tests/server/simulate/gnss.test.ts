import { describe, expect, test } from 'vitest';
import { CONSUMER_GNSS, GOOD_GNSS } from '../../../server/simulate/fittings.ts';
import { createReceiver, type Fix } from '../../../server/simulate/gnss.ts';
import { randomStreams } from '../../../server/simulate/random.ts';
import type { Gnss } from '../../../server/simulate/scenario.ts';
import { mean, quantile } from './help.ts';

const AT_REST = { east: 0, north: 0, velocityEast: 0, velocityNorth: 0 };

/** Fixes of an antenna that does not move. */
function fixes(gnss: Gnss, seconds: number, seed = 1): (Fix | undefined)[] {
  const receiver = createReceiver(gnss, randomStreams(seed)());
  return Array.from({ length: Math.floor(seconds / gnss.every) }, (_, i) =>
    receiver.fix(i * gnss.every, AT_REST),
  );
}

/** East and north as one series of errors per axis; silence is none. */
const axesOf = (found: (Fix | undefined)[]) => {
  const heard = found.filter((fix) => fix !== undefined);
  return [heard.map(({ east }) => east), heard.map(({ north }) => north)] as const;
};

/** Variance that changes of satellites add per axis: jumps of variance s² at rate r that fade with τ, r·τ·s²/2 (shot noise). */
const ofChanges = (gnss: Gnss) =>
  ((gnss.changes.perDay / 86_400) * gnss.slow.tau * gnss.changes.sigma ** 2) / 2;

function correlation(values: number[], lag: number): number {
  const all = mean(values.map((v) => v * v));
  const pairs = values.slice(lag).map((v, i) => v * values[i]!);
  return mean(pairs) / all;
}

describe('error of the position', () => {
  /** Long enough that the figures of the sample are those of the model: hundreds of times the slow time. */
  const LONG = { ...CONSUMER_GNSS, every: 60 };
  const found = fixes(LONG, 12_000_000);
  const [east, north] = axesOf(found);

  test('DRMS is that of the model told', () => {
    const drms = Math.sqrt(mean(east.map((v, i) => v * v + north[i]! * north[i]!)));
    const told = Math.sqrt(2 * (LONG.slow.sigma ** 2 + LONG.white ** 2 + ofChanges(LONG)));
    expect(drms / told).toBeCloseTo(1, 1);
  });

  test('R95 is 1.730818 · DRMS, as of a circular normal error (seamanship-physics.md §8 [C])', () => {
    const radii = east.map((v, i) => Math.hypot(v, north[i]!));
    const drms = Math.sqrt(mean(radii.map((r) => r * r)));
    expect(quantile(radii, 0.95) / drms / 1.730818).toBeCloseTo(1, 1);
  });

  test('the slow error has fallen to 1/e after its time', () => {
    const slow =
      (LONG.slow.sigma ** 2 + ofChanges(LONG)) / (LONG.slow.sigma ** 2 + LONG.white ** 2 + ofChanges(LONG));
    for (const axis of [east, north]) {
      expect(correlation(axis, LONG.slow.tau / LONG.every)).toBeCloseTo(slow / Math.E, 1);
      expect(correlation(axis, (3 * LONG.slow.tau) / LONG.every)).toBeLessThan(0.12);
    }
  });

  /**
   * nmea-0183.md §4 [M], about the own mean of the record. Good receivers, 24 h: DRMS 0.52 to 1.17, R95 1.01 to 2.13 m, farthest 1.80 to
   * 4.69 m. The consumer's lies between those and the differential u-blox: 2.50 and 4.40 m.
   */
  test.each([
    ['good', GOOD_GNSS, { drms: [0.52, 1.17], r95: [1.01, 2.13], max: [1.8, 4.69] }],
    ['consumer', CONSUMER_GNSS, { drms: [1.17, 2.6], r95: [2.13, 4.6], max: [2.8, 9] }],
  ] as const)('days of the %s receiver lie in the range of recorded ones', (_, gnss, range) => {
    const days = Array.from({ length: 15 }, (__, seed) =>
      about(axesOf(fixes({ ...gnss, every: 10 }, 86_400, seed))),
    );
    for (const of of ['drms', 'r95', 'max'] as const) {
      const middle = quantile(
        days.map((day) => day[of]),
        0.5,
      );
      expect(middle).toBeGreaterThan(range[of][0]);
      expect(middle).toBeLessThan(range[of][1]);
    }
  });

  test('goes on at the same pace whatever the rate: a second is a small step (§4: worst steps of 0.9 to 4.6 m are changes of satellites)', () => {
    const [quick] = axesOf(fixes(CONSUMER_GNSS, 7200));
    const steps = quick.slice(1).map((v, i) => Math.abs(v - quick[i]!));
    expect(quantile(steps, 0.95)).toBeLessThan(1);
  });
});

describe('faults', () => {
  const during = (fault: NonNullable<Gnss['faults']>[number]) =>
    fixes({ ...CONSUMER_GNSS, faults: [fault] }, 1200);

  test('silent: no fix at all, and the next ones go on from where the error was', () => {
    const found = during({ kind: 'silent', from: 300, to: 600 });
    expect(found.slice(300, 600).every((fix) => fix === undefined)).toBe(true);
    expect(found[299]).toBeDefined();
    expect(found[600]?.at).toBe(600);
  });

  test('void: it says that it has none', () => {
    const found = during({ kind: 'void', from: 300, to: 600 });
    expect(found.map((fix) => fix?.valid)).toEqual(found.map((_, i) => i < 300 || i >= 600));
  });

  test('frozen: the same fix with its old time', () => {
    const found = during({ kind: 'frozen', from: 300, to: 600 });
    for (let t = 300; t < 600; t++) expect(found[t]).toEqual(found[299]);
    expect(found[600]?.at).toBe(600);
  });

  test('jump: away and back', () => {
    const found = during({ kind: 'jump', from: 300, to: 303, north: 70, east: -45 });
    expect(found[301]!.north - found[299]!.north).toBeGreaterThan(60);
    expect(found[301]!.east - found[299]!.east).toBeLessThan(-40);
    expect(Math.abs(found[303]!.north - found[299]!.north)).toBeLessThan(6);
  });

  /** nmea-0183.md §4 [M], SiRFstar-IV in a bad place: DRMS 79 m, R95 170 m, 1/e time 2 to 5 min, HDOP below 2 all the same. */
  test('bad sky: tens of metres with a harmless HDOP', () => {
    const found = fixes(
      {
        ...CONSUMER_GNSS,
        faults: [{ kind: 'bad-sky', from: 0, to: 86_400, sigma: 45, tau: 180, speedNoise: 1.2 }],
      },
      86_400,
    );
    const { drms, r95 } = about(axesOf(found));
    expect(drms).toBeGreaterThan(40);
    expect(drms).toBeLessThan(80);
    expect(r95).toBeLessThan(170);
    expect(found.every((fix) => fix!.hdop < 2 && fix!.valid)).toBe(true);
  });

  test('static hold: the same position again and again at rest, with time going on, and never far off', () => {
    const found = fixes({ ...CONSUMER_GNSS, staticHold: 0.15 }, 7200).map((fix) => fix!);
    const same = found.slice(1).filter((fix, i) => fix.east === found[i]!.east);
    expect(same.length / found.length).toBeGreaterThan(0.85);
    expect(found.every((fix, i) => fix.at === i)).toBe(true);
    expect(same.every((fix) => fix.sog === 0 && fix.cog === undefined)).toBe(true);
  });
});

function about([east, north]: readonly [number[], number[]]): { drms: number; r95: number; max: number } {
  const [e, n] = [mean(east), mean(north)];
  const radii = east.map((v, i) => Math.hypot(v - e, north[i]! - n));
  return {
    drms: Math.sqrt(mean(radii.map((r) => r * r))),
    r95: quantile(radii, 0.95),
    max: Math.max(...radii),
  };
}
