import { describe, expect, test } from 'vitest';
import { anchorages } from '../../../server/simulate/anchorages.ts';
import { createSimulator, type Truth } from '../../../server/simulate/simulator.ts';
import { distanceBearing } from '../../../shared/earth/geodesic.ts';
import { turn } from '../../../shared/quantities/angle.ts';
import { fromKnots } from '../../../shared/quantities/units.ts';
import { decode } from '../../../shared/sentences/decode.ts';
import { mean, named, quantile, toAnchor, watched } from './help.ts';

const HOUR = 3600;

/** The RMC of each second, what it says, and the truth. */
function positions(name: string, seconds: number) {
  const simulator = createSimulator(named(name), 1);
  return Array.from({ length: seconds }, () => {
    simulator.step(1);
    const text = simulator.sentences().find((said) => said.text.startsWith('$GPRMC'))!.text;
    const decoded = decode(text, { requireChecksum: true });
    const seen = decoded.ok ? decoded.observations.find((one) => one.kind === 'position') : undefined;
    if (!seen) throw new Error(`no position in ${text}`);
    return { text, seen, truth: simulator.truth() };
  });
}
const seen = (name: string, seconds: number, seed = 1): Truth[] => watched(named(name), seconds, seed);
const furthest = (truths: Truth[]) => Math.max(...truths.map((truth) => toAnchor(truth).distance));
/** No roller gets further from its anchor: the taut cable, its stretch, and the stretch of the snubber. */
const taut = (name: string) => {
  const { boat, cable, seabed } = named(name);
  return Math.sqrt(cable.veered ** 2 - (seabed.depth - seabed.tide.range / 2 + boat.roller.height) ** 2) + 1;
};

describe('what the names promise', () => {
  test('each has its own name, title and description, out at sea where the anchor lies at the start', () => {
    const all = anchorages();
    expect(new Set(all.map(({ name }) => name)).size).toBe(all.length);
    for (const scenario of all) {
      expect(scenario.title.length).toBeGreaterThan(5);
      expect(scenario.description.length).toBeGreaterThan(10);
      const { anchor, hold, moved, at } = createSimulator(scenario, 1).truth();
      expect(distanceBearing(anchor, scenario.start).distance).toBeLessThan(0.001);
      expect([hold, moved, at]).toEqual(['held', 0, scenario.start.at]);
    }
  });

  test.each(['quiet-night', 'wind-against-tide', 'squall', 'bad-sky', 'catamaran-tide'])(
    '%s: the anchor holds through seven hours, and she stays within her cable',
    (name) => {
      const truths = seen(name, 7 * HOUR, 2);
      expect(truths.at(-1)!.moved).toBe(0);
      expect(truths.some(({ dragging }) => dragging)).toBe(false);
      expect(furthest(truths)).toBeLessThan(taut(name));
    },
  );

  test('quiet-night: 8 to 14 kn, and the stream turns at about 1 kn', () => {
    const truths = seen('quiet-night', 8 * HOUR);
    const speeds = truths.map(({ wind }) => wind.speed);
    expect(quantile(speeds, 0.05)).toBeGreaterThan(fromKnots(7));
    expect(quantile(speeds, 0.95)).toBeLessThan(fromKnots(15));
    expect(
      truths.some(({ stream }) => stream.drift > fromKnots(0.8) && Math.abs(turn(20, stream.set)) < 20),
    ).toBe(true);
    expect(
      truths.some(({ stream }) => stream.drift > fromKnots(0.8) && Math.abs(turn(200, stream.set)) < 20),
    ).toBe(true);
  });

  test('wind-against-tide: she lies stern to wind on a slack cable, much nearer than its reach', () => {
    const truths = seen('wind-against-tide', 5 * HOUR).slice(2 * HOUR);
    expect(mean(truths.map(({ heading, wind }) => Math.abs(turn(wind.from, heading))))).toBeGreaterThan(110);
    expect(Math.min(...truths.map((truth) => toAnchor(truth).distance))).toBeLessThan(
      0.75 * taut('wind-against-tide'),
    );
  });

  test('squall: 35 kn for a quarter of an hour', () => {
    const truths = seen('squall', HOUR);
    const inIt = truths.slice(17 * 60, 31 * 60).map(({ wind }) => wind.speed);
    expect(mean(inIt) / fromKnots(35)).toBeCloseTo(1, 0.5);
    expect(mean(truths.slice(0, 900).map(({ wind }) => wind.speed))).toBeLessThan(fromKnots(15));
  });

  test('drag-creep: the anchor creeps by centimetres a minute, not at once, and for tens of metres', () => {
    const truths = seen('drag-creep', 4 * HOUR);
    expect(truths[1200]!.moved).toBeLessThan(0.5);
    expect(truths.at(-1)!.moved).toBeGreaterThan(30);
    const perMinute = truths.slice(60).map(({ moved }, i) => moved - truths[i]!.moved);
    expect(Math.max(...perMinute)).toBeLessThan(4);
    expect(truths.some(({ dragging }) => dragging)).toBe(true);
  });

  test('drag-trip: it trips, ploughs, holds again, trips again', () => {
    const truths = seen('drag-trip', 1.5 * HOUR);
    expect(truths[31 * 60]!.moved).toBe(0);
    const held = truths[60 * 60]!;
    expect(held.hold).toBe('held');
    expect(held.moved).toBeGreaterThan(15);
    expect(truths.at(-1)!.hold).toBe('loose');
    expect(truths.at(-1)!.moved).toBeGreaterThan(held.moved + 10);
  });

  test('frozen-fix: one fix and its time again and again, twice; the second time she is adrift meanwhile', () => {
    const rmc = positions('frozen-fix', 75 * 60 - 1);
    const texts = (from: number, to: number) =>
      new Set(rmc.slice(from * 60 - 1, to * 60 - 1).map(({ text }) => text));
    expect(texts(10, 25).size).toBe(1);
    expect(texts(60, 75).size).toBe(1);
    expect(texts(25, 60).size).toBeGreaterThan(2000);
    expect(distanceBearing(rmc.at(-1)!.seen, rmc.at(-1)!.truth.antenna).distance).toBeGreaterThan(300);
  });

  test('bad-sky: for half an hour the fix is off by tens of metres, before and after by metres', () => {
    const off = positions('bad-sky', 50 * 60).map(
      ({ seen, truth }) => distanceBearing(truth.antenna, seen).distance,
    );
    const during = off.slice(10 * 60, 40 * 60);
    expect(quantile(during, 0.5)).toBeGreaterThan(20);
    expect(Math.max(...off.slice(0, 600), ...off.slice(2400))).toBeLessThan(12);
  });

  test('parted: she holds until the cable parts, then goes', () => {
    const truths = seen('parted', 20 * 60);
    expect(furthest(truths.slice(0, 899))).toBeLessThan(taut('parted'));
    expect(truths.at(-1)!.hold).toBe('parted');
    expect(furthest(truths)).toBeGreaterThan(150);
  });

  test('push-out: inside at the start, far outside any circle within two minutes, for any seed', () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const truths = seen('push-out', 120, seed);
      expect(furthest(truths.slice(0, 15))).toBeLessThan(taut('push-out'));
      expect(toAnchor(truths[60]!).distance).toBeGreaterThan(50);
      expect(toAnchor(truths.at(-1)!).distance).toBeGreaterThan(100);
    }
  });
});
