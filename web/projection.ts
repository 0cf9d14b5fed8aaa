import type { LatLon } from '../shared/quantities/estimate.ts';

/** A flat drawing plane round a point: good to centimetres over the few hundred metres that a plan shows. */

export interface Point {
  /** Metres east and metres south of the origin, as a screen wants them. */
  x: number;
  y: number;
}

/** WGS-84 semi-major axis, metres, and first eccentricity squared (NIMA TR8350.2). */
const A = 6_378_137;
const E2 = 6.694379990141e-3;

/** Returns the projection with its origin at `origin`. Longitudes may lie either side of the 180th meridian. */
export function plane(origin: LatLon): (place: LatLon) => Point {
  const phi = (origin.lat * Math.PI) / 180;
  const w = Math.sqrt(1 - E2 * Math.sin(phi) ** 2);
  const perDegreeNorth = (((A * (1 - E2)) / w ** 3) * Math.PI) / 180;
  const perDegreeEast = (((A * Math.cos(phi)) / w) * Math.PI) / 180;
  return (place) => {
    const east = ((((place.lon - origin.lon + 180) % 360) + 360) % 360) - 180;
    return { x: east * perDegreeEast, y: (origin.lat - place.lat) * perDegreeNorth };
  };
}

/** A unit vector on the screen towards a direction in degrees true. */
export function unit(direction: number): Point {
  const a = (direction * Math.PI) / 180;
  return { x: Math.sin(a), y: -Math.cos(a) };
}
