import magneticModel from 'magvar';
import { describe, expect, test } from 'vitest';
import { variation } from '../../../shared/earth/variation.ts';

/** UNIX time of a decimal year as the model counts it. */
const decimal = (year: number): number => {
  const whole = Math.floor(year);
  const start = Date.UTC(whole, 0, 1) / 1000;
  return start + (year - whole) * (Date.UTC(whole + 1, 0, 1) / 1000 - start);
};

/** NOAA/BGS WMM2025_TEST_VALUES.txt [F]: year, km, lat, lon, X, Y, Z (nT), D (°); I (°), H, F (nT) from the coefficients [C]. */
const ROWS: number[][] = [
  [2025, 0, 80, 0, 6521.6, 145.9, 54791.5, 1.28, 83.21, 6523.2, 55178.5],
  [2025, 0, 0, 120, 39677.8, -109.6, -10580.2, -0.16, -14.93, 39677.9, 41064.3],
  [2025, 0, -80, 240, 6117.5, 15751.9, -52022.5, 68.78, -72.0, 16898.1, 54698.2],
  [2025, 100, 80, 0, 6216.0, 92.4, 52598.8, 0.85, 83.26, 6216.7, 52964.9],
  [2025, 100, 0, 120, 37688.6, -96.2, -10152.1, -0.15, -15.08, 37688.7, 39032.1],
  [2025, 100, -80, 240, 5907.6, 14780.3, -49540.7, 68.21, -72.19, 15917.1, 52035.0],
  [2027.5, 0, 80, 0, 6500.8, 294.5, 54869.4, 2.59, 83.24, 6507.5, 55253.9],
  [2027.5, 0, 0, 120, 39701.6, -167.4, -10381.8, -0.24, -14.65, 39702.0, 41036.9],
  [2027.5, 0, -80, 240, 6200.7, 15730.3, -51783.7, 68.49, -71.92, 16908.3, 54474.2],
  [2027.5, 100, 80, 0, 6196.7, 233.8, 52670.5, 2.16, 83.29, 6201.1, 53034.3],
  [2027.5, 100, 0, 120, 37711.5, -148.7, -9969.8, -0.23, -14.81, 37711.8, 39007.4],
  [2027.5, 100, -80, 240, 5984.0, 14760.1, -49317.7, 67.93, -72.1, 15927.0, 51825.7],
];

describe('WMM2025', () => {
  test.each(ROWS)('published row %d, %d km, %d, %d', (year, km, lat, lon, x, y, z, d, i, h, f) => {
    const field = magneticModel.magneticField(lat!, lon!, km!, year!);
    expect(field).toMatchObject({ x, y, z, declination: d, inclination: i, h, f });
    if (km === 0) expect(variation(lat!, lon!, decimal(year!))?.value).toBeCloseTo(d!, 6);
  });

  test.each([
    // From the published file of 100 rows: year, km, lat, lon, D [F].
    [2025, 28, 89, -121, -99.77],
    [2025, 48, 80, -96, -29.91],
    [2025, 65, 43, 93, 0.5],
    [2025, 51, -33, 109, -5.49],
    [2025, 18, 0, 21, 1.29],
    [2025.5, 6, -36, -137, 20.28],
    [2025.5, 50, -70, -133, 57.21],
    [2027, 67, -47, -32, -13.52],
  ])('published row %d, %d km, %d, %d → %d°', (year, km, lat, lon, d) => {
    expect(magneticModel.magneticField(lat, lon, km, year).declination).toBeCloseTo(d, 6);
  });

  test.each([
    // NOAA online calculator for 2026-07-04 [F].
    [51.5074, -0.1278, 1.1628],
    [-33.8688, 151.2093, 12.82083],
  ])('by date: %d, %d', (lat, lon, d) => {
    expect(variation(lat, lon, Date.UTC(2026, 6, 4) / 1000)?.value).toBeCloseTo(d, 2);
  });

  test('unknown outside the model’s years, near a magnetic pole, and for what is no place or time', () => {
    const inside = Date.UTC(2026, 0, 1) / 1000;
    expect(variation(50, 0, Date.UTC(2024, 11, 31) / 1000)).toBeUndefined();
    expect(variation(50, 0, Date.UTC(2030, 0, 1) / 1000)).toBeUndefined();
    expect(variation(50, 0, Date.UTC(2029, 11, 31) / 1000)).toBeDefined();
    // The north magnetic dip pole of 2025 lies near 85.8° N, 139° E (NOAA [M]).
    expect(variation(85.8, 139, inside)).toBeUndefined();
    expect(variation(91, 0, inside)).toBeUndefined();
    expect(variation(Number.NaN, 0, inside)).toBeUndefined();
    expect(variation(50, 0, Number.NaN)).toBeUndefined();
    expect(variation(50, 0, 1e300)).toBeUndefined();
  });

  test('its sigma follows the model’s error, 0.3 to 0.4° in the tropics and more towards the poles', () => {
    const at = Date.UTC(2026, 0, 1) / 1000;
    expect(variation(0, 120, at)?.sigma).toBeCloseTo(Math.hypot(0.26, 5417 / 39690), 3);
    expect(variation(70, 20, at)!.sigma).toBeGreaterThan(variation(0, 120, at)!.sigma);
  });
});
