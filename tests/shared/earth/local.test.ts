import { describe, expect, test } from 'vitest';
import { destination } from '../../../shared/earth/geodesic.ts';
import { localPlane, metresPerDegree, wrapLongitude } from '../../../shared/earth/local.ts';
import { towards } from '../../../shared/quantities/vector.ts';

describe('metres in a degree', () => {
  test.each([
    // WGS-84 radii of curvature [C], agreeing with the NGA series within 0.04 m.
    [0, 110574.276, 111319.491],
    [15, 110648.696, 107550.489],
    [30, 110852.442, 96486.28],
    [45, 111131.777, 78846.835],
    [50, 111229.064, 71695.754],
    [60, 111412.287, 55800.002],
  ])('at %d°', (at, lat, lon) => {
    expect(metresPerDegree(at).lat).toBeCloseTo(lat, 3);
    expect(metresPerDegree(at).lon).toBeCloseTo(lon, 3);
    expect(metresPerDegree(-at)).toEqual(metresPerDegree(at));
  });

  test('one minute of latitude at the equator, 45° and the pole [C]', () => {
    expect(metresPerDegree(0).lat / 60).toBeCloseTo(1842.905, 3);
    expect(metresPerDegree(45).lat / 60).toBeCloseTo(1852.196, 3);
    expect(metresPerDegree(90).lat / 60).toBeCloseTo(1861.566, 3);
    expect(metresPerDegree(90).lon).toBeCloseTo(0, 6);
  });
});

describe('local plane', () => {
  const worstAt = (lat: number, lon: number, distance: number): number => {
    const plane = localPlane({ lat, lon });
    let worst = 0;
    for (let bearing = 0; bearing < 360; bearing += 5) {
      const local = plane.toLocal(destination({ lat, lon }, bearing, distance));
      const exact = towards(distance, bearing);
      worst = Math.max(worst, Math.hypot(local.east - exact.east, local.north - exact.north));
    }
    return worst;
  };

  test.each([
    // Largest error against the geodesic, 500 m and 1 km from the origin, metres [C].
    [30, 0.0131, 0.052],
    [45, 0.0226, 0.091],
    [60, 0.0391, 0.157],
    [70, 0.062, 0.248],
  ])('at %d° its error is what the reference computed', (lat, at500, at1000) => {
    expect(worstAt(lat, 20, 500)).toBeCloseTo(at500, 3);
    expect(worstAt(lat, 20, 1000)).toBeCloseTo(at1000, 2);
    expect(worstAt(-lat, 180, 500)).toBeCloseTo(at500, 3);
  });

  test('it stays below 0.07 m at 500 m up to 70° of latitude, across the date line too', () => {
    for (let lat = -70; lat <= 70; lat += 5) {
      for (const lon of [-179.9999, 0, 179.9999]) expect(worstAt(lat, lon, 500)).toBeLessThan(0.07);
    }
  });

  test('there and back again', () => {
    const plane = localPlane({ lat: -16.5, lon: 179.9999 });
    const place = plane.toLatLon({ east: 300, north: -40 });
    expect(place.lon).toBeLessThan(-179.99);
    expect(plane.toLocal(place).east).toBeCloseTo(300, 6);
    expect(plane.toLocal(place).north).toBeCloseTo(-40, 6);
  });

  test('longitudes are wrapped to −180 < lon ≤ 180', () => {
    expect([180, -180, 181, -181, 540, 0, 359.5].map(wrapLongitude)).toEqual([
      180, 180, -179, 179, 180, 0, -0.5,
    ]);
  });
});
