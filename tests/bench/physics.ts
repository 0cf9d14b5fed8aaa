import { give, hangAt, hangUnder } from '../../shared/cable/catenary.ts';
import { predictedHeading } from '../../shared/cable/lie.ts';
import { submergedWeight } from '../../shared/cable/nature.ts';
import { reachNow } from '../../shared/cable/reach.ts';
import { rodeAt } from '../../shared/cable/rode.ts';
import { cableState } from '../../shared/cable/state.ts';
import { destination, distanceBearing } from '../../shared/earth/geodesic.ts';
import { variation } from '../../shared/earth/variation.ts';
import { plan } from '../../shared/plan/plan.ts';
import { courseToSteer } from '../../shared/water/steer.ts';
import { createStream, observeStream } from '../../shared/water/stream.ts';
import { streamEstimate } from '../../shared/water/stream-estimate.ts';
import { groundWind } from '../../shared/water/wind.ts';

const boat = {
  hull: 'monohull',
  length: 12.8,
  beam: 4.1,
  draft: 1.9,
  roller: { height: 1.4 },
  windage: {},
} as const;

/** Microseconds of one call over varying input: the least of several passes, since what is above it is the machine's other work. */
export function physicsBench(): { name: string; microseconds: number }[] {
  const hang = { length: 50, height: 9.5, weight: submergedWeight(2.3) };
  const reach = { veered: 50, depth: 8, rollerHeight: 1.4, massPerMetre: 2.3, boat };
  const rode = {
    height: 8,
    parts: [
      { length: 30, weight: 12 },
      { length: 25, weight: 0.15 },
    ],
  };
  const stream = createStream();
  const sheer = (k: number) =>
    observeStream(stream, {
      heading: 180 + 30 * Math.sin(k / 16),
      ahead: 0.4,
      velocity: { east: 0.1 * Math.sin(k), north: 0 },
      at: k,
    });
  let second = 0;
  const cases: [string, (k: number) => unknown, number][] = [
    ['catenary forward', (k) => hangUnder(hang, 10 + (k % 5000)), 20_000],
    ['catenary inverse, grounded', (k) => hangAt(hang, 41 + (k % 7000) / 1000), 20_000],
    ['catenary inverse, lifted', (k) => hangAt(hang, 48.79 + (k % 290) / 1000), 20_000],
    ['catenary give', (k) => give(hang, 10 + (k % 5000)), 20_000],
    ['rope and chain inverse', (k) => rodeAt(rode, 48 + (k % 600) / 100), 3000],
    ['reach now, chain', (k) => reachNow({ ...reach, windSpeed: 2 + (k % 20) }), 10_000],
    [
      'reach now, rope and chain',
      (k) => reachNow({ ...reach, chainLength: 25, windSpeed: 2 + (k % 20) }),
      5000,
    ],
    [
      'cable state',
      (k) => cableState({ distance: { value: 30 + (k % 20), sigma: 2 }, veered: 50, height: 9.5 }),
      20_000,
    ],
    [
      'heading by balance of moments',
      (k) =>
        predictedHeading(boat, { wind: { from: k % 360, speed: 8 }, stream: { set: 20, drift: 0.5 } }, 8),
      3000,
    ],
    ['stream observation', () => sheer(second++), 10_000],
    ['stream estimate', () => streamEstimate(stream, second), 10_000],
    ['course to steer', (k) => courseToSteer({ track: k % 360, speed: 2, set: 80, drift: 0.6 }), 20_000],
    ['ground wind', (k) => groundWind({ angle: k % 180, speed: 9 }, 20, { sog: 0.4, cog: 90 }), 20_000],
    [
      'distance and bearing, short',
      (k) => distanceBearing({ lat: 54, lon: 10 }, { lat: 54 + (k % 99) * 1e-5, lon: 10.0003 }),
      20_000,
    ],
    ['destination (Karney)', (k) => destination({ lat: 54, lon: 10 }, k % 360, 50), 5000],
    ['variation (WMM2025)', (k) => variation(54, 10 + (k % 99) * 0.01, 1_790_000_000 + k), 1000],
    [
      'plan',
      (k) =>
        plan({
          depth: 5,
          riseToHigh: 2,
          fallToLow: 1,
          boat,
          chain: { size: 10 },
          wind: 5 + (k % 15),
          room: 90,
        }),
      1000,
    ],
  ];
  return cases.map(([name, call, count]) => ({ name, microseconds: least(call, count) }));
}

const PASSES = 7;

function least(call: (k: number) => unknown, count: number): number {
  const times: number[] = [];
  for (let pass = 0; pass < PASSES; pass++) {
    const begin = performance.now();
    for (let k = 0; k < count; k++) call(k);
    times.push(((performance.now() - begin) * 1000) / count);
  }
  return Math.min(...times);
}
