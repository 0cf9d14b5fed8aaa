import geodesic from 'geographiclib-geodesic';
import { degrees, direction, radians } from '../quantities/angle.ts';
import type { LatLon } from '../quantities/estimate.ts';
import { hypot } from '../quantities/vector.ts';
import { metresPerDegree, wrapLongitude } from './local.ts';

const WGS84 = geodesic.Geodesic.WGS84;

/** Up to this many degrees apart the mid-latitude formula is exact to well under a millimetre (see its test); beyond, Karney's. */
const SHORT_DEGREES = 0.02;
/** Nearer to a pole than this the mid-latitude formula loses its bearing. */
const HIGH_LATITUDE = 85;

/**
 * Length (m) and initial bearing (degrees true) of the geodesic between two points on WGS-84. Short lines by the ellipsoid's radii
 * at mid-latitude with half the convergence of the meridians; others by C. F. F. Karney's algorithm (J. Geodesy 87, 2013).
 * Throws a RangeError for what is no place on earth.
 */
export function distanceBearing(from: LatLon, to: LatLon): { distance: number; bearing: number } {
  mustBePlace(from);
  mustBePlace(to);
  const dLat = to.lat - from.lat;
  const dLon = wrapLongitude(to.lon - from.lon);
  const mid = (from.lat + to.lat) / 2;
  if (Math.abs(dLat) < SHORT_DEGREES && Math.abs(dLon) < SHORT_DEGREES && Math.abs(mid) < HIGH_LATITUDE) {
    const scale = metresPerDegree(mid);
    const east = dLon * scale.lon;
    const north = dLat * scale.lat;
    const halfConvergence = (dLon * Math.sin(radians(mid))) / 2;
    return {
      distance: hypot(east, north),
      bearing: direction(degrees(Math.atan2(east, north)) - halfConvergence),
    };
  }
  const line = WGS84.Inverse(from.lat, from.lon, to.lat, to.lon);
  return { distance: line.s12 ?? 0, bearing: direction(line.azi1 ?? 0) };
}

/** The point at a distance (m) and initial bearing (degrees true) from another, on WGS-84 (Karney). Throws a RangeError as above. */
export function destination(from: LatLon, bearing: number, distance: number): LatLon {
  mustBePlace(from);
  if (!Number.isFinite(bearing + distance)) {
    throw new RangeError(`No point lies ${distance} m away on a bearing of ${bearing}°.`);
  }
  const line = WGS84.Direct(from.lat, from.lon, bearing, distance);
  return { lat: line.lat2 ?? from.lat, lon: wrapLongitude(line.lon2 ?? from.lon) };
}

/** The package answers NaN to such input, without a word. */
function mustBePlace({ lat, lon }: LatLon): void {
  if (!(Math.abs(lat) <= 90 && Math.abs(lon) <= 540)) {
    throw new RangeError(`Latitude ${lat}, longitude ${lon} is no place on earth.`);
  }
}
