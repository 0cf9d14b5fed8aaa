import { degrees, direction, radians } from './angle.ts';

/** A horizontal vector in metres, m/s or newtons, east and north. */
export interface Vector {
  east: number;
  north: number;
}

/** The vector of the given size towards a direction (degrees true). */
export function towards(size: number, d: number): Vector {
  return { east: size * Math.sin(radians(d)), north: size * Math.cos(radians(d)) };
}

export const add = (a: Vector, b: Vector): Vector => ({ east: a.east + b.east, north: a.north + b.north });
export const subtract = (a: Vector, b: Vector): Vector => ({
  east: a.east - b.east,
  north: a.north - b.north,
});
export const scale = (a: Vector, k: number): Vector => ({ east: a.east * k, north: a.north * k });
export const size = (a: Vector): number => Math.hypot(a.east, a.north);

/** Direction a vector points towards, degrees true; 0 for the zero vector, so look at its size first. */
export const directionOf = (a: Vector): number => direction(degrees(Math.atan2(a.east, a.north)));
