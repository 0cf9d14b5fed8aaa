import { describe, expect, test } from 'vitest';
import { anchorages } from '../../../server/simulate/anchorages.ts';
import type { Scenario } from '../../../server/simulate/scenario.ts';
import { createSimulator, type Said, type Truth } from '../../../server/simulate/simulator.ts';
import { distanceBearing } from '../../../shared/earth/geodesic.ts';
import { variation } from '../../../shared/earth/variation.ts';
import { turn } from '../../../shared/quantities/angle.ts';
import { decode } from '../../../shared/sentences/decode.ts';
import type { Observation } from '../../../shared/sentences/observation.ts';
import { mean, named } from './help.ts';

/** What a sentence says, with the truth of its own second. */
type Heard<K extends Observation['kind']> = {
  seen: Extract<Observation, { kind: K }>;
  truth: Truth;
  id: string;
};

function listen(scenario: Scenario, seconds: number, seed = 4) {
  const simulator = createSimulator(scenario, seed);
  const heard: { id: string; talker: string; observations: Observation[]; truth: Truth; said: Said }[] = [];
  for (let step = 0; step < seconds * 10; step++) {
    simulator.step();
    for (const said of simulator.sentences()) {
      const decoded = decode(said.text, { requireChecksum: true });
      if (!decoded.ok) throw new Error(`${said.text}: ${decoded.why}`);
      heard.push({ ...decoded, truth: simulator.truth(), said });
    }
  }
  const of = <K extends Observation['kind']>(kind: K): Heard<K>[] =>
    heard.flatMap(({ observations, truth, id }) =>
      observations
        .filter((one) => one.kind === kind)
        .map((seen) => ({ seen: seen as Heard<K>['seen'], truth, id })),
    );
  return { heard, of };
}

/** 99.9 % of a normal error lies within 3.29 sigma; a few outside in some hundreds are no wonder, so 5 for all. */
const SIGMAS = 5;

describe('sentences of the full set', () => {
  const scenario = named('catamaran-tide');
  const { heard, of } = listen(scenario, 600);

  test('all decode, with the talkers and rates told, in order of time', () => {
    for (const { id, talker, every } of scenario.instruments.sends) {
      const count = heard.filter((one) => one.id === id && one.talker === talker).length;
      expect(Math.abs(count - 600 / every)).toBeLessThanOrEqual(1);
    }
    expect(heard.every(({ said }, i) => i === 0 || said.at > heard[i - 1]!.said.at)).toBe(true);
    expect(heard.every(({ said, truth }) => said.at > truth.at && said.at - truth.at < 0.3)).toBe(true);
    expect(heard.every(({ said }) => said.text.length <= 80)).toBe(true);
  });

  test('positions are the antenna’s within the error of the receiver', () => {
    const { slow, white, changes } = scenario.gnss;
    const sigma = Math.hypot(slow.sigma, white, changes.sigma);
    const found = of('position');
    expect(new Set(found.map(({ id }) => id))).toEqual(new Set(['RMC', 'GGA', 'GLL']));
    for (const { seen, truth } of found)
      expect(distanceBearing(truth.antenna, seen).distance).toBeLessThan(SIGMAS * sigma);
  });

  test('time of day and date are those of the moment', () => {
    const found = of('time').filter(({ seen }) => seen.date !== undefined);
    expect(found.length).toBeGreaterThan(600);
    for (const { seen, truth } of found) expect(seen.date! + seen.timeOfDay).toBeCloseTo(truth.at, 2);
  });

  test('speed over the ground is the antenna’s', () => {
    for (const { seen, truth } of of('motion')) {
      const { east, north } = truth.velocity;
      expect(Math.abs(seen.sog! - Math.hypot(east, north))).toBeLessThan(
        SIGMAS * scenario.gnss.speedNoise + 0.01,
      );
    }
  });

  test('heading is magnetic: variation and the compass’s own deviation stand between it and the truth', () => {
    const { noise, deviation, variation: told } = scenario.instruments.compass;
    expect(of('variation').every(({ seen }) => Math.abs(seen.variation - told) < 0.06)).toBe(true);
    const errors = of('heading-magnetic').map(({ seen, truth }) => turn(truth.heading, seen.heading + told));
    for (const error of errors) expect(Math.abs(error)).toBeLessThan(deviation + SIGMAS * noise + 0.1);
    expect(Math.sqrt(mean(errors.map((e) => e * e)))).toBeGreaterThan(noise / 2);
  });

  test('apparent wind, put back on heading and speed, is the true one', () => {
    const errors = of('wind-apparent').map(({ seen, truth }) => {
      const from = ((truth.heading + seen.angle) * Math.PI) / 180;
      const east = seen.speed * Math.sin(from) - truth.velocity.east;
      const north = seen.speed * Math.cos(from) - truth.velocity.north;
      return {
        angle: turn(truth.wind.from, (Math.atan2(east, north) * 180) / Math.PI),
        speed: Math.hypot(east, north) - truth.wind.speed,
      };
    });
    const { angleNoise, misaligned } = scenario.instruments.vane;
    expect(mean(errors.map(({ angle }) => angle))).toBeCloseTo(misaligned, -0.5);
    for (const { angle, speed } of errors) {
      expect(Math.abs(angle - misaligned)).toBeLessThan(SIGMAS * angleNoise + 2);
      expect(Math.abs(speed)).toBeLessThan(2);
    }
  });

  test('depth is below the transducer, with its own depth as offset', () => {
    const below = scenario.boat.sounder.belowWaterline!;
    for (const { seen, truth } of of('depth')) {
      expect(seen.offset).toBeCloseTo(below, 2);
      // Under the sounder, which is a few metres aft of the roller on a bottom that slopes.
      expect(Math.abs(seen.depth + below - truth.depth)).toBeLessThan(0.5);
    }
  });

  test('log, water temperature and chain counter', () => {
    for (const { seen, truth } of of('water-speed')) {
      expect(seen.ahead).toBeGreaterThanOrEqual(0);
      expect(seen.ahead).toBeLessThan(truth.stream.drift + 1.5);
    }
    expect(of('water-temperature').every(({ seen }) => Math.abs(seen.celsius - 18.4) < 0.06)).toBe(true);
    expect(of('transducer').map(({ seen }) => [seen.name, seen.value])).toContainEqual(['CHAIN', 40]);
  });
});

describe('a receiver at fault', () => {
  test('silence, no fix and a frozen fix look like what they are, while the other instruments go on', () => {
    const scenario = named('quiet-night');
    const { heard, of } = listen(
      {
        ...scenario,
        gnss: {
          ...scenario.gnss,
          faults: [
            { kind: 'silent', from: 10, to: 20 },
            { kind: 'void', from: 30, to: 40 },
            { kind: 'frozen', from: 50, to: 60 },
          ],
        },
      },
      70,
    );
    const second = ({ truth }: { truth: Truth }) => Math.round(truth.at - scenario.start.at);
    const between = (from: number, to: number) => (one: { truth: Truth }) =>
      second(one) >= from && second(one) < to;
    expect(of('position').filter(between(10, 20))).toEqual([]);
    expect(of('position').filter(between(30, 40))).toEqual([]);
    expect(new Set(of('no-position').map(second))).toEqual(new Set([30, 31, 32, 33, 34, 35, 36, 37, 38, 39]));
    expect(of('no-position').every(({ seen }) => seen.reason === 'no-fix')).toBe(true);
    const frozen = heard.filter(({ id }) => id === 'RMC').filter(between(49, 60));
    expect(frozen).toHaveLength(11);
    expect(new Set(frozen.map(({ said }) => said.text)).size).toBe(1);
    expect(heard.filter(({ id }) => id === 'MWV')).toHaveLength(70);
  });

  test('static hold repeats a position while time goes on', () => {
    const scenario = named('quiet-night');
    const { heard } = listen({ ...scenario, gnss: { ...scenario.gnss, staticHold: 0.3 } }, 300);
    const rmc = heard.filter(({ id }) => id === 'RMC').map(({ said }) => said.text.split(','));
    const repeats = rmc.slice(1).filter((fields, i) => fields[3] === rmc[i]![3] && fields[5] === rmc[i]![5]);
    expect(repeats.length).toBeGreaterThan(100);
    expect(new Set(rmc.map((fields) => fields[1])).size).toBe(rmc.length);
  });
});

test.each(anchorages().map((scenario) => [scenario.name, scenario] as const))(
  'the variation told at %s is that of the World Magnetic Model within a degree',
  (_, { start, instruments }) => {
    const model = variation(start.lat, start.lon, start.at);
    expect(Math.abs(model!.value - instruments.compass.variation)).toBeLessThan(1);
  },
);
