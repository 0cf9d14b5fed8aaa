import { direction, radians, signed, turn } from '../quantities/angle.ts';
import { add, directionOf, size, towards } from '../quantities/vector.ts';

/** A course to steer with the speed it makes good along the track (m/s); or why there is none. */
export type Course =
  | { state: 'course'; heading: number; speedMadeGood: number; throughWater: number }
  | {
      state: 'none';
      /** set-aside: the stream sets her off the track faster than she sails; set-back: she points along it but is carried back; no-speed: a value is missing or not a number. */
      reason: 'set-aside' | 'set-back' | 'no-speed';
    };

export interface SteerRequest {
  /** Track to make good, degrees true. */
  track: number;
  /** Speed through the water, m/s, > 0. */
  speed: number;
  /** Stream: set (towards, degrees true) and drift (m/s). */
  set: number;
  drift: number;
  /** Leeway, degrees, positive when she is pushed to starboard: she steers that much further to port. */
  leeway?: number;
}

/**
 * Course to steer to make good a track in a stream: with e = set − track, sin β = drift·sin e / speed, course = track − β,
 * speed made good = speed·cos β + drift·cos e (the current triangle, e.g. Bowditch, Pub. 9, dead reckoning).
 */
export function courseToSteer({ track, speed, set, drift, leeway = 0 }: SteerRequest): Course {
  const sane = [track, set, leeway].every(Number.isFinite) && speed > 0 && drift >= 0;
  if (!sane || !Number.isFinite(speed + drift)) return { state: 'none', reason: 'no-speed' };
  const e = radians(turn(track, set));
  const sine = (drift * Math.sin(e)) / speed;
  if (Math.abs(sine) > 1) return { state: 'none', reason: 'set-aside' };
  const speedMadeGood = speed * Math.sqrt(1 - sine * sine) + drift * Math.cos(e);
  if (speedMadeGood <= 0) return { state: 'none', reason: 'set-back' };
  const throughWater = direction(track - (Math.asin(sine) * 180) / Math.PI);
  return { state: 'course', heading: direction(throughWater - leeway), speedMadeGood, throughWater };
}

/** Course and speed made good when she steers a heading at a speed through the water (m/s) in a stream. */
export function madeGood(
  heading: number,
  speed: number,
  set: number,
  drift: number,
  leeway = 0,
): { course?: number; speed: number } {
  const sum = add(towards(speed, heading + leeway), towards(drift, set));
  const made = size(sum);
  return made < 1e-6 ? { speed: made } : { course: directionOf(sum), speed: made };
}

/**
 * Apparent wind that the vane shows on a heading, moving over the ground with a speed and course (m/s, degrees true) in a wind
 * over the ground: the angle to hold (off the bow, starboard positive) and its speed. The angle is absent in an apparent calm.
 */
export function windToHold(
  heading: number,
  ground: { speed: number; course: number },
  wind: { from: number; speed: number },
): { angle?: number; speed: number } {
  // What is felt blows from where the wind comes from, plus from where she goes: A = W_from + V.
  const felt = add(towards(wind.speed, wind.from), towards(ground.speed, ground.course));
  const speed = size(felt);
  return speed < 0.05 ? { speed } : { speed, angle: signed(directionOf(felt) - heading) };
}
