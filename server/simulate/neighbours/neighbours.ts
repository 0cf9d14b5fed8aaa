import type { LatLon } from '../../../shared/quantities/estimate.ts';
import type { SimulatedNeighbour } from '../scenario.ts';
import { aisSentence, type Spoken, staticSentences } from './speak.ts';

const RADIAN = Math.PI / 180;
/** A yacht feels a stream as much as a wind fifteen times as fast [P]. */
const STREAM_OVER_WIND = 15 ** 2;
/** Seconds that a boat takes to follow a new pull, and one sheer there and back [P]. */
const FOLLOWS = 60;
const SHEER = { degrees: 18, period: 95 };
/** Seconds between two reports at rest and under way (ITU-R M.1371-5, annex 1, tables 1 and 2), and of name and size. */
const REST_EVERY = 180;
const EVERY = { A: 10, B: 30 };
const STATIC_EVERY = 360;
/** Error of each position, metres: the quantised pattern of a receiver at rest [P]. */
const WANDER = { metres: 1.5, period: 700 };

/** The neighbours of a simulated anchorage: where each is, and what her transponder says. Behaviour, no physics. */
export function createNeighbours(
  neighbours: readonly SimulatedNeighbour[],
  place: (east: number, north: number) => LatLon,
) {
  /** Where to a boat on her cable lies from her anchor, as a pull east and north that is smoothed. */
  let pull: { east: number; north: number } | undefined;

  function where(one: SimulatedNeighbour, t: number): Spoken & { underWay: boolean } {
    const { mmsi, unit, anchor, reach, length } = one;
    const wander = (phase: number) =>
      WANDER.metres * Math.sin((2 * Math.PI * t) / WANDER.period + phase + mmsi);
    if (one.route) {
      const { course, speed, at } = one.route;
      const run = speed * (t - at);
      const east = anchor.east + run * Math.sin(course * RADIAN);
      const north = anchor.north + run * Math.cos(course * RADIAN);
      return {
        ...place(east, north),
        mmsi,
        unit,
        sog: speed,
        cog: course,
        heading: course,
        status: 0,
        underWay: true,
      };
    }
    const lie = Math.atan2(pull!.east, pull!.north);
    const sheer = SHEER.degrees * RADIAN * Math.sin((2 * Math.PI * t) / SHEER.period + mmsi);
    const dragged = one.drags && t > one.drags.at ? one.drags.speed * (t - one.drags.at) : 0;
    const out = reach + length / 2;
    const east = anchor.east + dragged * Math.sin(lie) + out * Math.sin(lie + sheer / 2) + wander(0);
    const north = anchor.north + dragged * Math.cos(lie) + out * Math.cos(lie + sheer / 2) + wander(1);
    const heading = ((((lie + Math.PI + sheer) / RADIAN) % 360) + 360) % 360;
    return {
      ...place(east, north),
      mmsi,
      unit,
      sog: dragged > 0 ? one.drags!.speed : 0.1,
      cog: (((lie / RADIAN) % 360) + 360) % 360,
      ...(unit === 'A' ? { heading, status: 1 } : {}),
      underWay: false,
    };
  }

  return {
    /** Lets a second pass in this wind and stream (velocities, m/s); returns what was heard at `t` seconds after the start. */
    second(
      t: number,
      wind: { east: number; north: number },
      water: { east: number; north: number },
    ): string[] {
      if (neighbours.length === 0) return [];
      const w = Math.hypot(wind.east, wind.north);
      const s = STREAM_OVER_WIND * Math.hypot(water.east, water.north);
      const now = { east: w * wind.east + s * water.east, north: w * wind.north + s * water.north };
      pull = pull
        ? {
            east: pull.east + (now.east - pull.east) / FOLLOWS,
            north: pull.north + (now.north - pull.north) / FOLLOWS,
          }
        : now;
      const heard: string[] = [];
      neighbours.forEach((one, index) => {
        const spoken = where(one, t);
        const every = spoken.underWay ? EVERY[one.unit] : REST_EVERY;
        const second = Math.round(t) - 3 * (index + 1);
        if (second < 0) return;
        if (second % every === 0) heard.push(aisSentence(spoken));
        if (second % STATIC_EVERY === 1)
          heard.push(...staticSentences(one.mmsi, one.unit, one.name, one.length, one.beam));
      });
      return heard;
    },
  };
}
