import type { Random } from './random.ts';
import type { Scenario, Seabed, Wind } from './scenario.ts';
import { createWander } from './wander.ts';

const RADIAN = Math.PI / 180;

/** Wind and stream as velocities towards east and north, m/s. */
export interface Surroundings {
  wind: { east: number; north: number };
  water: { east: number; north: number };
  /** Brings them to `t` seconds after the start; called once a step. */
  step(t: number): void;
}

/**
 * Gusts: the speed wanders on three time scales, so that there are both flurries and lulls of minutes [P]; parts of the variance
 * and of the gust time. Not a measured spectrum.
 */
const GUST_SCALES = [
  { variance: 0.3, time: 0.2 },
  { variance: 0.4, time: 1 },
  { variance: 0.3, time: 5 },
];
/** 1/e time of eddies in the stream, s [P]. */
const EDDY_TIME = 45;

export function createSurroundings(
  { wind, stream }: Pick<Scenario, 'wind' | 'stream'>,
  dt: number,
  random: { wind: Random; water: Random },
): Surroundings {
  const gusts = GUST_SCALES.map(({ variance, time }) =>
    createWander(Math.sqrt(variance), time * wind.gusts.time, dt, random.wind),
  );
  const veer = createWander(wind.meander.sigma, wind.meander.time, dt, random.wind);
  const eddies = [0, 1].map(() => createWander(stream.eddies, EDDY_TIME, dt, random.water));
  const here: Surroundings = {
    wind: { east: 0, north: 0 },
    water: { east: 0, north: 0 },
    step(t) {
      const mean = meanWind(wind, t);
      let gust = 0;
      for (const part of gusts) gust += part.step();
      const speed = Math.max(0, mean.speed * (1 + wind.gusts.intensity * gust));
      const from = (mean.from + veer.step()) * RADIAN;
      here.wind.east = -speed * Math.sin(from);
      here.wind.north = -speed * Math.cos(from);
      const phase = (2 * Math.PI * (t - stream.slackAt)) / stream.period;
      const along = stream.mean + stream.amplitude * Math.sin(phase);
      const across = stream.amplitude * stream.across * Math.cos(phase);
      const set = stream.set * RADIAN;
      here.water.east = along * Math.sin(set) + across * Math.cos(set) + eddies[0]!.step();
      here.water.north = along * Math.cos(set) - across * Math.sin(set) + eddies[1]!.step();
    },
  };
  return here;
}

/** Mean wind at `t` seconds after the start, squalls included. */
function meanWind(wind: Wind, t: number): { speed: number; from: number } {
  let { speed, from } = between(wind.knots, t);
  for (const squall of wind.squalls ?? []) {
    const into = Math.min((t - squall.at) / squall.rise, 1);
    const outOf = Math.min((squall.at + squall.rise + squall.hold + squall.fall - t) / squall.fall, 1);
    const part = Math.max(0, Math.min(into, outOf));
    speed += (squall.speed - speed) * part;
    from += squall.shift * part;
  }
  return { speed, from };
}

function between(knots: Wind['knots'], t: number): { speed: number; from: number } {
  const next = knots.findIndex((knot) => knot.at > t);
  const after = knots[next] ?? knots.at(-1)!;
  const before = next > 0 ? knots[next - 1]! : after;
  const part = next > 0 ? (t - before.at) / (after.at - before.at) : 0;
  return {
    speed: before.speed + (after.speed - before.speed) * part,
    from: before.from + (after.from - before.from) * part,
  };
}

/** Depth of the water, m, at a place (metres east and north of where the anchor was let go); never less than none. */
export function depthAt(seabed: Seabed, t: number, east: number, north: number): number {
  const { tide, slope, deepens } = seabed;
  const along = east * Math.sin(deepens * RADIAN) + north * Math.cos(deepens * RADIAN);
  const rise = (tide.range / 2) * Math.cos((2 * Math.PI * (t - tide.highAt)) / tide.period);
  return Math.max(0, seabed.depth + slope * along + rise);
}
