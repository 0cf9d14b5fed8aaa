import type { Boat } from '../../shared/settings.ts';
import type { BoatState } from './boat.ts';
import type { Motion } from './gnss.ts';

/** A point of the boat: metres ahead of midships and to starboard of the centreline. */
export interface Point {
  ahead: number;
  toStarboard: number;
}

/** Where roller, antenna and sounder sit; the roller is right at the bow. */
export function pointsOf(boat: Boat): { roller: Point; antenna: Point; sounder: Point } {
  const bow = boat.length / 2;
  return {
    roller: { ahead: bow, toStarboard: 0 },
    antenna: { ahead: bow - boat.antenna.aftOfRoller, toStarboard: boat.antenna.toStarboard },
    sounder: { ahead: bow - boat.sounder.aftOfRoller, toStarboard: 0 },
  };
}

/** Place and speed of a point of the boat, metres and m/s. */
export function motionOf(boat: BoatState, { ahead, toStarboard }: Point): Motion {
  const sin = Math.sin(boat.heading);
  const cos = Math.cos(boat.heading);
  const east = ahead * sin + toStarboard * cos;
  const north = ahead * cos - toStarboard * sin;
  return {
    east: boat.east + east,
    north: boat.north + north,
    velocityEast: boat.velocityEast + boat.turning * north,
    velocityNorth: boat.velocityNorth - boat.turning * east,
  };
}
