import fc from 'fast-check';
import geodesic from 'geographiclib-geodesic';
import { describe, expect, test } from 'vitest';
import { destination, distanceBearing } from '../../../shared/earth/geodesic.ts';
import { turn } from '../../../shared/quantities/angle.ts';

const dms = (degrees: number, minutes: number, seconds: number): number =>
  Math.sign(degrees || 1) * (Math.abs(degrees) + minutes / 60 + seconds / 3600);
const WGS84 = geodesic.Geodesic.WGS84;

describe('published lines', () => {
  test('Flinders Peak to Buninyong (Geoscience Australia [F]; GRS80, which WGS-84 follows to a tenth of a millimetre)', () => {
    const flinders = { lat: -dms(37, 57, 3.7203), lon: dms(144, 25, 29.5244) };
    const buninyong = { lat: -dms(37, 39, 10.1561), lon: dms(143, 55, 35.3839) };
    const there = distanceBearing(flinders, buninyong);
    expect(there.distance).toBeCloseTo(54_972.271, 3);
    expect(there.bearing).toBeCloseTo(dms(306, 52, 5.37), 5);
    expect(distanceBearing(buninyong, flinders).bearing).toBeCloseTo(dms(127, 10, 25.07), 5);
  });

  test('Karney 2013: table 2 direct [F], table 5 inverse, nearly antipodal [F], table 3 short [M]', () => {
    const end = destination({ lat: 40, lon: 0 }, 30, 10_000_000);
    expect(end.lat).toBeCloseTo(41.79331020506, 10);
    expect(end.lon).toBeCloseTo(137.84490004377, 10);
    const antipodal = distanceBearing({ lat: -30, lon: 0 }, { lat: 29.9, lon: 179.8 });
    expect(antipodal.distance).toBeCloseTo(19_989_832.82761, 5);
    expect(antipodal.bearing).toBeCloseTo(161.890524, 5);
    const short = distanceBearing({ lat: -30.12345, lon: 0 }, { lat: -30.12344, lon: 0.00005 });
    expect(short.distance).toBeCloseTo(4.944208, 6);
    expect(short.bearing).toBeCloseTo(77.043533, 5);
  });

  test.each([
    // Vincenty 1975, table II [F]: a and 1/f of the ellipsoid, latitudes, difference of longitude, distance, azimuth.
    [
      6377397.155,
      299.1528128,
      dms(55, 45, 0),
      dms(-33, 26, 0),
      dms(108, 13, 0),
      14110526.17,
      dms(96, 36, 8.7996),
    ],
    [
      6378388,
      297,
      dms(37, 19, 54.95367),
      dms(26, 7, 42.83946),
      dms(41, 28, 35.50729),
      4085966.703,
      dms(95, 27, 59.63089),
    ],
    [
      6378388,
      297,
      dms(35, 16, 11.24862),
      dms(67, 22, 14.77638),
      dms(137, 47, 28.31435),
      8084823.839,
      dms(15, 44, 23.7485),
    ],
    [6378388, 297, 1, -dms(0, 59, 53.83076), dms(179, 17, 48.02997), 19960000, 89],
    [6378388, 297, 1, dms(1, 1, 15.18952), dms(179, 46, 17.84244), 19780006.558, dms(4, 59, 59.99995)],
  ])(
    'the package that long lines rely on gives Vincenty’s table II (1/f %d %d)',
    (a, f, lat1, lat2, dLon, distance, azimuth) => {
      const line = new geodesic.Geodesic.Geodesic(a, 1 / f).Inverse(lat1, 0, lat2, dLon);
      expect(line.s12).toBeCloseTo(distance, 2);
      expect(line.azi1).toBeCloseTo(azimuth, 6);
    },
  );

  test.each([
    // Direct pairs on WGS-84 [C].
    [50, -5, 37, 50, 50.0003590041, -4.9995802963],
    [36.5, -6.25, 211.5, 43.25, 36.4996676824, -6.2502522345],
    [-17.75, 177.25, 123.4, 250, -17.7512434236, 177.2519680064],
    [18.42, -64.62, 300, 500, 18.4222586128, -64.6240985562],
  ])('from %d, %d on %d° for %d m', (lat, lon, bearing, distance, endLat, endLon) => {
    const end = destination({ lat, lon }, bearing, distance);
    expect(end.lat).toBeCloseTo(endLat, 10);
    expect(end.lon).toBeCloseTo(endLon, 10);
    const back = distanceBearing({ lat, lon }, end);
    expect(back.distance).toBeCloseTo(distance, 5);
    expect(Math.abs(turn(bearing, back.bearing))).toBeLessThan(1e-5);
  });
});

describe('short lines against Karney', () => {
  const place = fc.record({
    lat: fc.double({ min: -84.9, max: 84.9, noNaN: true }),
    lon: fc.double({ min: -180, max: 180, noNaN: true }),
  });

  test('up to 2 km the error stays below a tenth of a millimetre, and below 0.00001° of bearing from 10 m on', () => {
    let worst = 0;
    fc.assert(
      fc.property(
        place,
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.double({ min: 0, max: 2000, noNaN: true }),
        (from, bearing, distance) => {
          const line = WGS84.Direct(from.lat, from.lon, bearing, distance);
          const found = distanceBearing(from, { lat: line.lat2!, lon: line.lon2! });
          worst = Math.max(worst, Math.abs(found.distance - distance));
          expect(Math.abs(found.distance - distance)).toBeLessThan(1e-4);
          if (distance > 10) expect(Math.abs(turn(bearing, found.bearing))).toBeLessThan(1e-5);
        },
      ),
      { numRuns: 3000, seed: 20261125 },
    );
    expect(worst).toBeGreaterThan(0);
  });

  test('nothing jumps where the short formula hands over to Karney', () => {
    const from = { lat: 54, lon: 10 };
    const inside = distanceBearing(from, { lat: 54.0199999, lon: 10.0199999 });
    const outside = distanceBearing(from, { lat: 54.0200001, lon: 10.0200001 });
    expect(outside.distance - inside.distance).toBeGreaterThan(0);
    expect(outside.distance - inside.distance).toBeLessThan(0.04);
    expect(Math.abs(turn(inside.bearing, outside.bearing))).toBeLessThan(1e-3);
  });
});

describe('awkward places', () => {
  test('across the date line', () => {
    const east = { lat: -16.5, lon: 179.9995 };
    const west = { lat: -16.5, lon: -179.9995 };
    const line = distanceBearing(east, west);
    expect(line.distance).toBeCloseTo(WGS84.Inverse(-16.5, 179.9995, -16.5, -179.9995).s12!, 4);
    expect(line.bearing).toBeCloseTo(90, 3);
    expect(distanceBearing(west, east).bearing).toBeCloseTo(270, 3);
    const over = destination(east, 90, 200);
    expect(over.lon).toBeLessThan(-179.99);
    expect(distanceBearing(east, over).distance).toBeCloseTo(200, 4);
  });

  test('on the equator, near the poles, and at one place', () => {
    expect(distanceBearing({ lat: 0, lon: 0 }, { lat: 0, lon: 0.001 })).toEqual({
      distance: expect.closeTo(111.319491, 5),
      bearing: expect.closeTo(90, 6),
    });
    const north = distanceBearing({ lat: 89.999, lon: 0 }, { lat: 89.999, lon: 180 });
    expect(north.distance).toBeCloseTo(223.388, 2);
    expect(north.bearing).toBeCloseTo(0, 6);
    expect(distanceBearing({ lat: 90, lon: 0 }, { lat: 89.999, lon: 90 }).distance).toBeCloseTo(111.694, 2);
    expect(distanceBearing({ lat: 10, lon: 10 }, { lat: 10, lon: 10 })).toEqual({ distance: 0, bearing: 0 });
  });

  test('what is no place on earth is refused in words, never answered with NaN', () => {
    expect(() => distanceBearing({ lat: 91, lon: 0 }, { lat: 0, lon: 0 })).toThrow(/no place on earth/);
    expect(() => distanceBearing({ lat: 0, lon: 0 }, { lat: 0, lon: Number.NaN })).toThrow(
      /no place on earth/,
    );
    expect(() => destination({ lat: 0, lon: 0 }, Number.NaN, 5)).toThrow(/bearing of NaN/);
  });

  test('destination and distanceBearing undo each other at every scale', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -89, max: 89, noNaN: true }),
        fc.double({ min: -180, max: 180, noNaN: true }),
        fc.double({ min: 0, max: 359.9, noNaN: true }),
        fc.double({ min: 1, max: 1e6, noNaN: true }),
        (lat, lon, bearing, distance) => {
          const line = distanceBearing({ lat, lon }, destination({ lat, lon }, bearing, distance));
          expect(Math.abs(line.distance - distance)).toBeLessThan(1e-3);
          expect(Math.abs(turn(bearing, line.bearing)) * distance).toBeLessThan(0.1);
        },
      ),
      { numRuns: 1000, seed: 7 },
    );
  });
});
