import { metresPerDegree, wrapLongitude } from '../earth/local.ts';
import { radians } from '../quantities/angle.ts';
import type { LatLon } from '../quantities/estimate.ts';
import { hypot } from '../quantities/vector.ts';
import type { Boat } from '../settings.ts';

/**
 * Where the bow roller is, and the one-sigma error per axis (metres), from the antenna's place, its offset and the true heading ψ:
 * dE = f·sin ψ + p·cos ψ, dN = f·cos ψ − p·sin ψ with f metres forward and p metres to starboard from antenna to roller. An error
 * of the heading moves the roller by its share of the offset. Without heading the roller is somewhere on the circle of the offset
 * round the antenna: the antenna's place, and the whole offset added to sigma in quadrature.
 */
export function rollerOf(
  antenna: LatLon,
  positionSigma: number,
  offset: Boat['antenna'],
  heading: { value: number; sigma: number } | undefined,
): LatLon & { sigma: number } {
  const distance = hypot(offset.aftOfRoller, offset.toStarboard);
  if (!heading) return { lat: antenna.lat, lon: antenna.lon, sigma: hypot(positionSigma, distance) };
  const psi = radians(heading.value);
  const forward = offset.aftOfRoller;
  const starboard = -offset.toStarboard;
  const east = forward * Math.sin(psi) + starboard * Math.cos(psi);
  const north = forward * Math.cos(psi) - starboard * Math.sin(psi);
  const perDegree = metresPerDegree(antenna.lat);
  return {
    lat: antenna.lat + north / perDegree.lat,
    lon: wrapLongitude(antenna.lon + east / perDegree.lon),
    sigma: hypot(positionSigma, radians(heading.sigma) * distance),
  };
}
