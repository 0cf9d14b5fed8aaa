/** Speeds of tidal constituents, degrees an hour (NOAA/NWS table, published). Beware of copies with O1 = 13.9429539 and P1 = 14.9589333. */
export const SPEEDS = {
  M2: 28.9841042,
  S2: 30,
  N2: 28.4397295,
  K2: 30.0821373,
  K1: 15.0410686,
  O1: 13.9430356,
  P1: 14.9589314,
  Q1: 13.3986609,
  M4: 57.9682084,
  MS4: 58.9841042,
} as const;

export type ConstituentName = keyof typeof SPEEDS;

/** Period of the semidiurnal lunar tide, seconds. */
export const M2_PERIOD = (360 / SPEEDS.M2) * 3600;

/** Length of record (seconds) that separates two constituents by Rayleigh's criterion, |a_i − a_j|·T ≥ 360°. */
export const separation = (one: ConstituentName, other: ConstituentName): number =>
  (360 / Math.abs(SPEEDS[one] - SPEEDS[other])) * 3600;
