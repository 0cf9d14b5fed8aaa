import type { HullForm } from './hull.ts';

const AIR = 1.225;
const SEA = 1025;

/** Place (metres east and north of the start), speed over the ground, heading and rate of turn (radians, clockwise) of the hull. */
export interface BoatState {
  east: number;
  north: number;
  velocityEast: number;
  velocityNorth: number;
  heading: number;
  turning: number;
}

/** Force along and across the hull (ahead, to starboard), N, and moment to starboard, N·m. */
export interface Push {
  ahead: number;
  athwart: number;
  moment: number;
}

interface Flow {
  east: number;
  north: number;
}

/**
 * One step of surge, sway and yaw in wind, stream and what else pushes, semi-implicit. The equations are those of a hull in a
 * current of its own (T. I. Fossen, Handbook of Marine Craft Hydrodynamics and Motion Control, 2011, ch. 6 and 8 [M]): inertia
 * with added mass on the velocity through the water, drag across the hull strip by strip, lift of keel and rudder.
 */
export function stepBoat(
  boat: BoatState,
  hull: HullForm,
  wind: Flow,
  water: Flow,
  push: Push,
  dt: number,
): void {
  const sin = Math.sin(boat.heading);
  const cos = Math.cos(boat.heading);
  const east = boat.velocityEast - water.east;
  const north = boat.velocityNorth - water.north;
  const u = east * sin + north * cos;
  const v = east * cos - north * sin;
  const r = boat.turning;

  const air = windPush(hull, wind.east - boat.velocityEast, wind.north - boat.velocityNorth, sin, cos);
  const sea = waterPush(hull, u, v, r);
  const massAhead = hull.mass * (1 + hull.addedAhead);
  const massAthwart = hull.mass * (1 + hull.addedAthwart);
  const inertia = hull.mass * hull.gyration ** 2 * (1 + hull.addedYaw);
  const calm = 1 / hull.calmTime;
  const du = (air.ahead + sea.ahead + push.ahead + massAthwart * v * r) / massAhead - u * calm;
  const dv = (air.athwart + sea.athwart + push.athwart - massAhead * u * r) / massAthwart - v * calm;
  const dr = (air.moment + sea.moment + push.moment - (massAthwart - massAhead) * u * v) / inertia - r * calm;

  // Turning axes: what the hull feels as du, dv is seen from the ground with the turn added.
  const ahead = du - r * v;
  const athwart = dv + r * u;
  boat.velocityEast += (ahead * sin + athwart * cos) * dt;
  boat.velocityNorth += (ahead * cos - athwart * sin) * dt;
  boat.turning += dr * dt;
  boat.east += boat.velocityEast * dt;
  boat.north += boat.velocityNorth * dt;
  boat.heading += boat.turning * dt;
}

function windPush(hull: HullForm, east: number, north: number, sin: number, cos: number): Push {
  const ahead = east * sin + north * cos;
  const athwart = east * cos - north * sin;
  const speed = Math.hypot(ahead, athwart);
  if (speed < 1e-9) return { ahead: 0, athwart: 0, moment: 0 };
  const side = 0.5 * AIR * hull.windAthwart * speed * athwart;
  const centre = hull.windCentre.middle - (hull.windCentre.ahead * ahead) / speed;
  return {
    ahead: 0.5 * AIR * hull.windAhead * speed * ahead,
    athwart: side,
    moment: side * centre,
  };
}

function waterPush(hull: HullForm, u: number, v: number, r: number): Push {
  let athwart = 0;
  let moment = 0;
  for (const { x, area } of hull.profile) {
    const across = v + r * x;
    const force = -0.5 * SEA * area * Math.hypot(u, across) * across;
    athwart += force;
    moment += force * x;
  }
  for (const { x, area, lift } of hull.foils) {
    const force = -0.5 * SEA * area * lift * Math.abs(u) * (v + r * x);
    athwart += force;
    moment += force * x;
  }
  return { ahead: -0.5 * SEA * hull.waterAhead * Math.hypot(u, v) * u, athwart, moment };
}
