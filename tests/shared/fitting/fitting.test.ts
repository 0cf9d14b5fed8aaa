import { describe, expect, test } from 'vitest';
import { anchorages } from '../../../server/simulate/anchorages.ts';
import { hullOf } from '../../../server/simulate/hull.ts';
import type { Scenario } from '../../../server/simulate/scenario.ts';
import type { Simulator } from '../../../server/simulate/simulator.ts';
import { fitting, observe } from '../../../shared/fitting/fitting.ts';
import { fitSounder } from '../../../shared/fitting/sounder.ts';
import { radians, turn } from '../../../shared/quantities/angle.ts';
import { collect, settingsOf } from './heard.ts';

const NOTHING = { ownCard: false };

// Simulated nights show what the estimators do with data whose truth is known; they prove no physics of sheering.

const night = (name: string): Scenario => anchorages().find((one) => one.name === name)!;

describe('where the antenna is, by her own sheer', () => {
  test.each([
    ['quiet-night', 2],
    ['squall', 2],
  ])(
    '%s: within three metres, whatever was told; a wrong figure is offered anew, the right one is left alone',
    (name, seed) => {
      const scenario = night(name);
      const right = scenario.boat.antenna;
      const wrong = { ...right, aftOfRoller: 2 };
      const found = [right, wrong].map((antenna) => {
        const settings = settingsOf(scenario, { antenna });
        const { collected, said } = collect(scenario, seed, 2, settings);
        return fitting(collected, settings, said).antennaAft;
      });
      for (const { estimate } of found) {
        expect(Math.abs(estimate!.value - right.aftOfRoller)).toBeLessThan(3);
        expect(estimate!.sigma).toBeLessThan(2.5);
      }
      expect(found[0]!.offer).toBeUndefined();
      expect(Math.abs(found[1]!.offer! - right.aftOfRoller)).toBeLessThan(3);
    },
  );

  test('wind against tide, where she does not hang on her cable: no estimate', () => {
    const scenario = night('wind-against-tide');
    const settings = settingsOf(scenario);
    const { collected } = collect(scenario, 2, 2.5, settings);
    const { antennaAft } = fitting(collected, settings, NOTHING);
    expect(antennaAft.estimate).toBeUndefined();
    expect(antennaAft.unknown).toBeDefined();
  });

  test('less than an hour says nothing', () => {
    const scenario = night('quiet-night');
    const settings = settingsOf(scenario);
    const { collected } = collect(scenario, 1, 0.5, settings);
    expect(fitting(collected, settings, NOTHING).antennaAft).toEqual({
      told: scenario.boat.antenna.aftOfRoller,
      unknown: expect.stringMatching(/hour/),
    });
  });

  test('another mark, and another deviation card, begin anew', () => {
    const scenario = night('quiet-night');
    const settings = settingsOf(scenario);
    const { collected } = collect(scenario, 1, 0.1, settings);
    expect(collected.lying.length).toBeGreaterThan(100);
    const nothing = { at: scenario.start.at + 400, ages: {}, sources: {} };
    const mark = { ...collected.mark! };
    observe(collected, settings, nothing, mark);
    expect(collected.lying.length).toBeGreaterThan(100);
    const kept = structuredClone(collected);
    observe(kept, settings, nothing, { ...mark, lat: mark.lat + 1e-4 });
    expect(kept.lying).toEqual([]);
    observe(collected, { ...settings, deviation: [[0, 2]] }, nothing, mark);
    expect(collected.lying).toEqual([]);
  });
});

describe('the sounder below the waterline, by the offset that it sends', () => {
  const { boat } = night('quiet-night');
  const below = (belowWaterline?: number) => ({
    ...boat,
    draft: 1.9,
    sounder: { aftOfRoller: 4, ...(belowWaterline === undefined ? {} : { belowWaterline }) },
  });

  test('the simulated sounder sends its own offset, and a wrong figure is caught by it', () => {
    const scenario = night('quiet-night');
    const { said } = collect(scenario, 1, 0.01, settingsOf(scenario));
    expect(said).toEqual({ offset: scenario.boat.sounder.belowWaterline, ownCard: false });
    expect(fitSounder(said.offset, below(0.2)).offer).toBe(said.offset);
  });

  // DPT: positive from transducer to waterline, negative to the keel (see shared/vessel/depth.ts for the sources).
  test('told and sent alike: nothing is offered', () => {
    expect(fitSounder(0.6, below(0.65)).offer).toBeUndefined();
    expect(fitSounder(-1.3, below(0.6)).offer).toBeUndefined();
  });

  test('to the waterline, and to the keel by way of the draft', () => {
    expect(fitSounder(0.6, below(0.3)).offer).toBe(0.6);
    expect(fitSounder(-1.4, below(0.9)).offer).toBeCloseTo(0.5, 9);
    expect(fitSounder(0.6, below()).offer).toBe(0.6);
  });

  test('an offset to a keel deeper than the draft contradicts the draft, and nothing is offered', () => {
    const fitted = fitSounder(-2.5, below(0.6));
    expect(fitted.offer).toBeUndefined();
    expect(fitted.unknown).toMatch(/above the waterline/);
  });

  test('no offset: nothing to compare with', () => {
    expect(fitSounder(undefined, below(0.6))).toEqual({
      told: 0.6,
      unknown: expect.stringMatching(/no offset/),
    });
  });
});

/** Motors round the horizon, the anchor left behind: `legs` courses, so many seconds each. The helm of the simulated crews. */
const motoring = (scenario: Scenario, legs: number, seconds: number) => {
  const hull = hullOf(scenario.boat, scenario.hull);
  const inertia = hull.mass * hull.gyration ** 2 * (1 + hull.addedYaw);
  const most = 12_000;
  let before: number | undefined;
  let weather = 0;
  return (simulator: Simulator, second: number) => {
    const { heading } = simulator.truth();
    const wanted = ((Math.floor(second / seconds) % legs) * 360) / legs;
    const error = radians(turn(heading, wanted));
    const rate = before === undefined ? 0 : radians(turn(before, heading));
    before = heading;
    weather = Math.max(-most / 2, Math.min(most / 2, weather + inertia * 0.004 * error));
    const moment = weather + inertia * (0.09 * error - 0.54 * rate);
    simulator.setThrust(900, Math.max(-most, Math.min(most, moment)));
  };
};

/** Light wind, a knot of stream, a compass that is out by up to so many degrees. */
function underWay(deviation: number): Scenario {
  const scenario = night('quiet-night');
  return {
    ...scenario,
    anchor: { ...scenario.anchor, events: [{ at: 0, happens: 'parts' }] },
    wind: { ...scenario.wind, knots: [{ at: 0, speed: 3, from: 200 }] },
    stream: { mean: 0.5, amplitude: 0, set: 120, across: 0, period: 44_714, slackAt: 0, eddies: 0.02 },
    instruments: { ...scenario.instruments, compass: { ...scenario.instruments.compass, deviation } },
  };
}

describe('what the compass is out by, under way', () => {
  test('a compass out by up to 8° is found out on all courses, in a stream', () => {
    const scenario = underWay(8);
    const settings = settingsOf(scenario);
    const { collected } = collect(scenario, 3, 0.5, settings, {
      steer: motoring(scenario, 8, 225),
      atAnchor: false,
    });
    const { deviation } = fitting(collected, settings, NOTHING);
    const { variation } = scenario.instruments.compass;
    expect(deviation.sectors).toHaveLength(8);
    for (const { heading, left } of deviation.sectors) {
      const truth = 8 * Math.sin(((heading + variation) * Math.PI) / 180);
      expect(Math.abs(left.value - truth)).toBeLessThan(3);
    }
    expect(deviation.offer).toHaveLength(8);
    // A compass that corrects itself by a card of its own is not corrected by ours.
    const own = fitting(collected, settings, { ownCard: true }).deviation;
    expect(own.offer).toBeUndefined();
    expect(own.unknown).toMatch(/own/);
  });

  test('a good compass is left alone, also in a stream', () => {
    const scenario = underWay(0);
    const settings = settingsOf(scenario);
    const { collected } = collect(scenario, 4, 0.5, settings, {
      steer: motoring(scenario, 8, 225),
      atAnchor: false,
    });
    const { deviation } = fitting(collected, settings, NOTHING);
    expect(deviation.sectors).toHaveLength(8);
    expect(deviation.offer).toBeUndefined();
  });

  test('one course alone cannot tell a compass from a stream', () => {
    const scenario = underWay(8);
    const settings = settingsOf(scenario);
    const { collected } = collect(scenario, 5, 0.1, settings, {
      steer: motoring(scenario, 1, 600),
      atAnchor: false,
    });
    const { deviation } = fitting(collected, settings, NOTHING);
    expect(deviation.sectors).toEqual([]);
    expect(deviation.unknown).toMatch(/turn all round/);
  });
});
