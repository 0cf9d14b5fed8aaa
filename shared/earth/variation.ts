import magneticModel from 'magvar';
import type { Estimate } from '../quantities/estimate.ts';

/** The World Magnetic Model 2025 is valid in these years (NOAA/BGS). */
const VALID = { from: 2025, until: 2030 };
/** Standard deviation of declination in low and middle latitudes; WMM2025 report gives 0.37° (from memory), rounded up for local iron and rock. */
const SIGMA = 0.5;
/** Nearer to a magnetic pole than the model's blackout zone (horizontal field below 2000 nT) the compass is of no use. */
const LATITUDE_LIMIT = 80;

const SECONDS_A_YEAR = 365.25 * 86_400;
const UNIX_2025 = Date.UTC(2025, 0, 1) / 1000;

/**
 * Magnetic variation (declination, degrees east positive) at sea level by WMM2025 at a place and UNIX time. Undefined outside
 * the model's years or beyond 80° of latitude: a wrong epoch would be a silent error.
 */
export function variation(lat: number, lon: number, at: number): Estimate | undefined {
  const year = VALID.from + (at - UNIX_2025) / SECONDS_A_YEAR;
  if (!(year >= VALID.from && year < VALID.until && Math.abs(lat) <= LATITUDE_LIMIT)) return undefined;
  const value = magneticModel.magvar(lat, lon, 0, year);
  return Number.isFinite(value) ? { value, sigma: SIGMA } : undefined;
}
