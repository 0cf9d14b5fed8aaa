/// <reference path="./magvar.d.ts" />
import magneticModel from 'magvar';
import type { Estimate } from '../quantities/estimate.ts';

/** The World Magnetic Model 2025 is valid in these years (NOAA/BGS). */
const VALID = { from: 2025, until: 2030 };
/** Error model of WMM2025 for declination: √(0.26² + (5417/H)²) degrees, H the horizontal field in nT (its report, from memory). */
const SIGMA = { floor: 0.26, horizontal: 5417 };
/** Blackout zone of the model: with a horizontal field below this (nT) a compass is of no use. */
const BLACKOUT = 2000;

const yearStart = (year: number): number => Date.UTC(year, 0, 1) / 1000;

/**
 * Magnetic variation (declination, degrees east positive) at sea level by WMM2025 (package magvar) at a place and UNIX time.
 * Its sigma (0.3 to 0.6° in most waters) counts the model's own error with the magnetism of the earth's crust, not iron on board.
 * Undefined outside the model's years, since a wrong epoch would be a silent error, and near the magnetic poles.
 */
export function variation(lat: number, lon: number, at: number): Estimate | undefined {
  const year = decimalYear(at);
  if (!(year >= VALID.from && year < VALID.until && Math.abs(lat) <= 90)) return undefined;
  const { declination, h } = magneticModel.magneticField(lat, lon, 0, year);
  if (!(h >= BLACKOUT) || !Number.isFinite(declination)) return undefined;
  return { value: declination, sigma: Math.hypot(SIGMA.floor, SIGMA.horizontal / h) };
}

/** The year with its share that has passed by a UNIX time, as the model counts it. */
function decimalYear(at: number): number {
  if (!(Math.abs(at) < 1e11)) return Number.NaN;
  const year = new Date(at * 1000).getUTCFullYear();
  return year + (at - yearStart(year)) / (yearStart(year + 1) - yearStart(year));
}
