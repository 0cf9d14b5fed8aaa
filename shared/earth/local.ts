import { radians } from '../quantities/angle.ts';
import type { LatLon } from '../quantities/estimate.ts';
import type { Vector } from '../quantities/vector.ts';

/** WGS-84 (defining values: semi-major axis in metres and flattening). */
const A = 6_378_137;
const FLATTENING = 1 / 298.257223563;
const E2 = FLATTENING * (2 - FLATTENING);

/** Metres in one degree of latitude and of longitude at a latitude: meridian and prime-vertical radii of the WGS-84 ellipsoid. */
export function metresPerDegree(lat: number): { lat: number; lon: number } {
  const phi = radians(lat);
  const w2 = 1 - E2 * Math.sin(phi) ** 2;
  const primeVertical = A / Math.sqrt(w2);
  return {
    lat: radians((primeVertical * (1 - E2)) / w2),
    lon: radians(primeVertical * Math.cos(phi)),
  };
}

/** Longitude as −180 < lon ≤ 180. */
export function wrapLongitude(lon: number): number {
  const wrapped = lon - 360 * Math.floor((lon + 180) / 360);
  return wrapped === -180 ? 180 : wrapped;
}

/** A plane of metres east and north, touching the ellipsoid at its origin: true within 0.07 m at 500 m below 70° of latitude. */
export interface LocalPlane {
  toLocal(point: LatLon): Vector;
  toLatLon(vector: Vector): LatLon;
}

/** The local plane at an origin away from the poles (|lat| < 89.9). Safe across the date line. */
export function localPlane(origin: LatLon): LocalPlane {
  const scale = metresPerDegree(origin.lat);
  return {
    toLocal: (point) => ({
      east: wrapLongitude(point.lon - origin.lon) * scale.lon,
      north: (point.lat - origin.lat) * scale.lat,
    }),
    toLatLon: (vector) => ({
      lat: origin.lat + vector.north / scale.lat,
      lon: wrapLongitude(origin.lon + vector.east / scale.lon),
    }),
  };
}
