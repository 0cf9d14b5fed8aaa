import { describe, expect, test } from 'vitest';
import { TARROCK, TWO_FEATHERS } from '../../../server/simulate/fittings.ts';
import { createSimulator } from '../../../server/simulate/simulator.ts';
import { distanceBearing } from '../../../shared/earth/geodesic.ts';
import { turn } from '../../../shared/quantities/angle.ts';
import { fromKnots } from '../../../shared/quantities/units.ts';
import { directionOf } from '../../../shared/quantities/vector.ts';
import { gustyWind, mean, NO_STREAM, quantile, steadyWind, still, toAnchor, watch, watched } from './help.ts';

const AIR = 1.225;

describe('at rest', () => {
  /** seamanship-physics.md §1.6 [C]; the reach grows by the chain's own stretch, which §1.5 gives for case A's line (mm at kN). */
  test.each([
    ['A', 2.3, 9.5, 50, 1000, 48.118526, 0.006],
    ['B', 2.3, 9.5, 50, 4000, 48.971505, 0.024],
    ['C', 1.4, 7, 30, 500, 28.683425, 0.003],
  ] as const)(
    'a steady wind of known force brings her to the reach of case %s',
    (_, massPerMetre, height, veered, pull, reach, stretch) => {
      const speed = fromKnots(25);
      const scenario = still({
        wind: steadyWind(speed, 270),
        hull: { windAhead: pull / (0.5 * AIR * speed ** 2), windCentre: { middle: 0, ahead: 0 } },
        cable: { veered, massPerMetre },
        seabed: { ...still().seabed, depth: height - TARROCK.roller.height },
      });
      const truth = watched(scenario, 1800).at(-1)!;
      const { distance, bearing } = toAnchor(truth);
      expect(Math.abs(distance - reach - stretch)).toBeLessThan(0.005);
      expect(truth.load).toBeCloseTo(pull, 0);
      expect(turn(bearing, 270)).toBeCloseTo(0, 2);
      expect(turn(truth.heading, 270)).toBeCloseTo(0, 1);
    },
  );

  test('wind and stream across each other: 1362.451208 N, the anchor bears 296.833048° (§3 combined lie [C])', () => {
    const stations = [-4, -2, 0, 2, 4];
    const scenario = still({
      wind: steadyWind(fromKnots(25), 270),
      stream: { ...NO_STREAM, mean: 1, set: 180 },
      hull: {
        windAhead: 12,
        windAthwart: 12,
        windCentre: { middle: 0, ahead: 0 },
        waterAhead: 1.2,
        profile: stations.map((x) => ({ x, area: 1.2 / stations.length })),
        foils: [],
        calmTime: 1e9,
      },
    });
    const truth = watched(scenario, 3600).at(-1)!;
    expect(truth.load).toBeCloseTo(1362.451208, 0);
    expect(toAnchor(truth).bearing).toBeCloseTo(296.833048, 1);
  });

  test('without wind and stream the cable is slack, and she does not gather way', () => {
    const seen = watched(still({ wind: steadyWind(0, 0) }), 1800);
    expect(Math.max(...seen.map(({ load }) => load))).toBeLessThan(20);
    expect(
      Math.max(...seen.slice(-60).map(({ velocity }) => Math.hypot(velocity.east, velocity.north))),
    ).toBeLessThan(0.05);
  });

  test('lies to a stream that is stronger than the wind', () => {
    const seen = watched(
      still({ wind: steadyWind(fromKnots(4), 90), stream: { ...NO_STREAM, mean: fromKnots(2), set: 90 } }),
      1800,
    );
    for (const { heading } of seen.slice(-600)) expect(Math.abs(turn(heading, 270))).toBeLessThan(30);
  });
});

describe('sheer', () => {
  const record = (boat: typeof TARROCK, knots: number) => {
    const seen = watched(
      still({ boat, snubber: 9000, cable: { veered: 45, massPerMetre: 2.3 }, wind: gustyWind(knots, 240) }),
      3600,
    );
    return { seen, ...sheerOf(seen.map(({ heading }) => heading)) };
  };

  /**
   * Expected: 30° to each side is the usual assumption (Dulhunty; N. Calder, PassageMaker [F]); badly behaved boats reach 60°
   * (Good Old Boat [F]); Practical Sailor's tests yaw every 2 minutes [F]; no spectrum was found (§10), so the band is [P].
   */
  test.each([15, 20, 25])(
    'a monohull sheers 20 to 40° each way every 30 to 130 s in %i kn, head to wind on the whole',
    (knots) => {
      const { seen, amplitude, period } = record(TARROCK, knots);
      expect(amplitude).toBeGreaterThan(20);
      expect(amplitude).toBeLessThan(40);
      expect(period).toBeGreaterThan(30);
      expect(period).toBeLessThan(130);
      expect(Math.abs(mean(seen.map(({ heading }) => turn(240, heading))))).toBeLessThan(8);
    },
  );

  test('a catamaran sheers less than half as far', () => {
    expect(record(TWO_FEATHERS, 20).amplitude).toBeLessThan(0.5 * record(TARROCK, 20).amplitude);
  });

  test('a trimaran lies head to wind too, between the two', () => {
    const trimaran = { ...TARROCK, hull: 'trimaran' as const, beam: 8.6, draft: 1.3 };
    const { amplitude, seen } = record(trimaran, 20);
    expect(amplitude).toBeGreaterThan(2);
    expect(amplitude).toBeLessThan(record(TARROCK, 20).amplitude);
    expect(Math.abs(mean(seen.map(({ heading }) => turn(240, heading))))).toBeLessThan(8);
  });

  test('the usual pull in 30 kn is a quarter to a half of the 5338 N of ABYC H-40 for 40 ft, said to be about three times the steady drag (§3 [F])', () => {
    const loads = record(TARROCK, 30).seen.map(({ load }) => load);
    expect(quantile(loads, 0.5)).toBeGreaterThan(5338 / 4);
    expect(quantile(loads, 0.5)).toBeLessThan(5338 / 2);
    expect(quantile(loads, 0.999)).toBeLessThan(2 * 5338);
  });
});

test('an anchor that moves in steps moves so far, towards the boat, and holds again', () => {
  const truths = watched(
    still({
      wind: gustyWind(9, 0),
      anchor: {
        breakOut: 1e9,
        events: [
          { at: 300, happens: 'steps', metres: 3 },
          { at: 900, happens: 'steps', metres: 5 },
        ],
      },
    }),
    1500,
  );
  expect(truths[298]!.moved).toBe(0);
  expect(truths[310]!.dragging).toBe(true);
  expect(truths[600]!.moved).toBeCloseTo(3, 1);
  expect(truths[600]!.dragging).toBe(false);
  expect(truths.at(-1)!.moved).toBeGreaterThan(7);
  expect(truths.at(-1)!.hold).toBe('held');
  expect(Math.abs(turn(180, distanceBearing(truths[0]!.anchor, truths.at(-1)!.anchor).bearing))).toBeLessThan(
    30,
  );
});

describe('adrift', () => {
  /**
   * Leeway of the SAR table (§10 [F]): sailing monohulls on the average 4.5 % of the wind, with bare masts 5.23 %; the slowest kind is
   * 2.67 % (fin keel, shallow draft), the fastest 6.66 % (rudder amidships).
   */
  test.each([10, 20, 30])('goes downwind at 2.67 to 6.66 % of %i kn', (knots) => {
    const scenario = still({
      wind: gustyWind(knots, 0),
      anchor: { breakOut: 1e9, events: [{ at: 0, happens: 'parts' }] },
    });
    const simulator = createSimulator(scenario, 5);
    watch(simulator, 600);
    const from = simulator.truth();
    watch(simulator, 1800);
    const to = simulator.truth();
    const { distance, bearing } = distanceBearing(from.antenna, to.antenna);
    const downwind = (distance * Math.cos((turn(180, bearing) * Math.PI) / 180)) / 1800;
    expect(downwind / fromKnots(knots)).toBeGreaterThan(0.0267);
    expect(downwind / fromKnots(knots)).toBeLessThan(0.0666);
    expect(to.load).toBe(0);
    expect(to.hold).toBe('parted');
  });

  test('goes with the stream when the air goes with it too', () => {
    const scenario = still({
      wind: steadyWind(0.7, 310),
      stream: { ...NO_STREAM, mean: 0.7, set: 130 },
      anchor: { breakOut: 1e9, events: [{ at: 0, happens: 'parts' }] },
    });
    const { velocity } = watched(scenario, 1800).at(-1)!;
    expect(Math.hypot(velocity.east, velocity.north)).toBeCloseTo(0.7, 2);
    expect(directionOf(velocity)).toBeCloseTo(130, 0);
  });
});

/** Half the swing of the heading about its ten-minute mean (√2 times its standard deviation, as of a sine), and seconds of one. */
function sheerOf(headings: number[]): { amplitude: number; period: number } {
  const HALF = 300;
  let running = headings[0]!;
  const unwound = headings.map((heading, i) => {
    running += turn(headings[Math.max(0, i - 1)]!, heading);
    return running;
  });
  const off: number[] = [];
  for (let i = HALF; i < unwound.length - HALF; i++)
    off.push(unwound[i]! - mean(unwound.slice(i - HALF, i + HALF + 1)));
  let crossings = 0;
  let side = 0;
  for (const angle of off) {
    if (angle > 3 && side <= 0) {
      crossings++;
      side = 1;
    } else if (angle < -3 && side >= 0) side = -1;
  }
  return { amplitude: Math.SQRT2 * Math.sqrt(mean(off.map((a) => a * a))), period: off.length / crossings };
}
