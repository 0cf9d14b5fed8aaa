import { describe, expect, test } from 'vitest';
import { createSimulator } from '../../../server/simulate/simulator.ts';
import { fromKnots } from '../../../shared/quantities/units.ts';
import { mean, steadyWind, still, toAnchor, watch } from './help.ts';

describe('windlass and engine', () => {
  const calm = still({ wind: steadyWind(fromKnots(8), 0), anchor: { holding: 9000, breakOut: 3000 } });

  test('heaving in takes her up to her anchor, breaks it out when up and down, and leaves her adrift', () => {
    const simulator = createSimulator(calm, 1);
    simulator.setCable(12);
    const short = watch(simulator, 300).at(-1)!;
    expect(short.veered).toBeCloseTo(12, 5);
    expect(short.hold).toBe('held');
    expect(toAnchor(short).distance).toBeLessThan(12);
    simulator.setCable(4);
    const coming = watch(simulator, 300);
    const states = [...new Set(coming.map(({ hold }) => hold))];
    expect(states.at(0)).toBe('held');
    expect(states.at(-1)).toBe('aweigh');
    const { load, velocity, moved } = coming.at(-1)!;
    expect(load).toBe(0);
    expect(Math.hypot(velocity.east, velocity.north)).toBeGreaterThan(0.05);
    expect(moved).toBeGreaterThan(1);
  });

  test('the windlass heaves a quarter of a metre a second, and stalls on a cable that is hauled too hard', () => {
    const simulator = createSimulator(calm, 1);
    simulator.setCable(30);
    expect(watch(simulator, 20).at(-1)!.veered).toBeCloseTo(35, 1);
    const blow = createSimulator(still({ wind: steadyWind(fromKnots(70), 0) }), 1);
    blow.setCable(10);
    expect(watch(blow, 300).at(-1)!.veered).toBeGreaterThan(20);
  });

  test('going ahead slackens the cable', () => {
    const simulator = createSimulator(calm, 1);
    const before = watch(simulator, 60).at(-1)!;
    simulator.setThrust(600);
    const ahead = watch(simulator, 25).at(-1)!;
    expect(toAnchor(ahead).distance).toBeLessThan(toAnchor(before).distance - 3);
    expect(ahead.cableOnBottom).toBeGreaterThan(before.cableOnBottom);
  });

  test('going astern gently adds to the pull of the wind and moves nothing', () => {
    const simulator = createSimulator(calm, 1);
    const ofWind = watch(simulator, 60).at(-1)!.load;
    for (let thrust = 0; thrust >= -1000; thrust -= 20) {
      simulator.setThrust(thrust);
      watch(simulator, 4);
    }
    const astern = watch(simulator, 300);
    expect(mean(astern.map(({ load }) => load)) / (1000 + ofWind)).toBeCloseTo(1, 1);
    expect(astern.at(-1)!.moved).toBe(0);
  });

  test('full astern from a slack cable snatches the anchor out', () => {
    const simulator = createSimulator(calm, 1);
    simulator.setThrust(1200);
    watch(simulator, 30);
    simulator.setThrust(-4000);
    expect(watch(simulator, 60).at(-1)!.hold).toBe('loose');
  });

  test('too hard a pull astern ploughs the anchor', () => {
    const soft = still({ ...calm, anchor: { holding: 1500, creep: 20_000, breakOut: 3000 } });
    const simulator = createSimulator(soft, 1);
    simulator.setThrust(-3000);
    expect(watch(simulator, 300).at(-1)!.moved).toBeGreaterThan(3);
  });

  test('veering again after weighing lets go at the new place', () => {
    const simulator = createSimulator(calm, 1);
    simulator.setCable(4);
    watch(simulator, 600);
    simulator.setCable(40);
    const again = watch(simulator, 900).at(-1)!;
    expect(again.hold).toBe('loose');
    expect(toAnchor(again).distance).toBeLessThan(41);
  });
});

test('chain on the bottom holds her to its bight when the wind goes round lightly, and straightens when it freshens', () => {
  const scenario = still({
    cable: { veered: 45, massPerMetre: 2.3 },
    wind: {
      ...steadyWind(3, 0),
      knots: [
        { at: 0, speed: 8, from: 0 },
        { at: 300, speed: 2.5, from: 90 },
        { at: 2400, speed: 2.5, from: 90 },
        { at: 2700, speed: 13, from: 90 },
      ],
    },
  });
  const truths = watch(createSimulator(scenario, 1), 4500);
  const light = toAnchor(truths[2300]!);
  const fresh = toAnchor(truths.at(-1)!);
  expect(Math.abs(light.bearing - 90)).toBeGreaterThan(10);
  expect(light.distance).toBeLessThan(fresh.distance - 2);
  expect(truths.slice(-900).reduce((sum, truth) => sum + toAnchor(truth).bearing, 0) / 900).toBeCloseTo(
    90,
    -1,
  );
});
