import type { LatLon } from '../../shared/quantities/estimate.ts';

/** Semi-axes of the WGS-84 ellipsoid, metres (NIMA TR8350.2). */
const A = 6_378_137;
const B = 6_356_752.314245179;

/**
 * Metres east and north of a point to latitude and longitude. This is the simulator's own map, made apart from shared/earth on
 * purpose: an error in one shows against the other. Good to centimetres within a kilometre; not for the poles.
 */
export function createPlace(origin: LatLon): (east: number, north: number) => LatLon {
  const phi = (origin.lat * Math.PI) / 180;
  const cos2 = Math.cos(phi) ** 2;
  const bulge = A * A * cos2 + B * B * (1 - cos2);
  const metresNorth = ((A * B) ** 2 / bulge ** 1.5) * (Math.PI / 180);
  const metresEast = ((A * A) / Math.sqrt(bulge)) * Math.cos(phi) * (Math.PI / 180);
  return (east, north) => {
    const lon = origin.lon + east / metresEast;
    return {
      lat: origin.lat + north / metresNorth,
      lon: lon > 180 ? lon - 360 : lon <= -180 ? lon + 360 : lon,
    };
  };
}
