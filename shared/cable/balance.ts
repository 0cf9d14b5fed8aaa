import { degrees, direction, radians } from '../quantities/angle.ts';
import { acrossByAngle } from './loads/wind.ts';

/** Side force × length for a flow from abeam (N·m), and where the flow comes from (degrees true). */
export interface Moments {
  wind: number;
  windFrom: number;
  stream: number;
  streamFrom: number;
}

/** Where on the boat the side force acts: distance aft of the roller as a share of her length, from ahead and from astern
 * (the pressure of a flow lies in the forward half of what it meets; common practice). */
const ARM = { wind: { ahead: 0.3, astern: 0.6 }, stream: { ahead: 0.4, astern: 0.6 } };
const STEPS = 36;

/**
 * Headings at which the moments of wind and stream about the bow roller cancel and a turn either way is turned back, the one
 * held hardest first. Side force by relative angle after UFC 4-159-03: wind (sin θ − sin 5θ/20)/0.95 (from memory), stream sin θ (§4-5).
 */
export function balance({ wind, windFrom, stream, streamFrom }: Moments): number[] {
  const from = radians(windFrom);
  const along = radians(streamFrom);
  const moment = (heading: number) =>
    turning(wind, from - heading, ARM.wind, acrossByAngle) +
    turning(stream, along - heading, ARM.stream, Math.sin);
  const found: { heading: number; hold: number }[] = [];
  const step = (2 * Math.PI) / STEPS;
  // Starts at the wind's eye shifted by an odd angle, so that no root of a simple case falls on the seam.
  let low = from + 0.1234;
  let lowMoment = moment(low);
  for (let k = 0; k < STEPS; k++, low += step) {
    const highMoment = moment(low + step);
    if (lowMoment > 0 && highMoment <= 0) {
      found.push({ heading: settle(low, low + step, moment), hold: lowMoment - highMoment });
    }
    lowMoment = highMoment;
  }
  return found.sort((a, b) => b.hold - a.hold).map(({ heading }) => heading);
}

/** The balance between a heading that is turned to starboard and one that is turned to port, by halving; degrees. */
function settle(from: number, to: number, moment: (heading: number) => number): number {
  let low = from;
  let high = to;
  for (let k = 0; k < 26; k++) {
    const middle = (low + high) / 2;
    if (moment(middle) > 0) low = middle;
    else high = middle;
  }
  return direction(degrees((low + high) / 2));
}

/** Moment about the roller of a flow from `angle` (radians) off the bow: it turns the bow towards where the flow comes from. */
function turning(
  moment: number,
  angle: number,
  arm: { ahead: number; astern: number },
  shape: (theta: number) => number,
): number {
  const wrapped = angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
  const theta = Math.abs(wrapped);
  const share = arm.ahead + (arm.astern - arm.ahead) * (theta / Math.PI);
  return Math.sign(wrapped) * moment * share * shape(theta);
}
