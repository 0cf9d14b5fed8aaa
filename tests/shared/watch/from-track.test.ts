import { describe, expect, test } from 'vitest';
import { reachNow } from '../../../shared/cable/reach.ts';
import { localPlane } from '../../../shared/earth/local.ts';
import { type ArcOptions, fitArc } from '../../../shared/watch/arc.ts';
import { fromTrack } from '../../../shared/watch/from-track.ts';
import type { TrackPoint } from '../../../shared/watch/view.ts';
import { MARK, START, settings } from './help.ts';

const free: ArcOptions = {
  start: { east: 4.7423, north: 3.8351 },
  noise: 1,
  radiusSigma: Number.POSITIVE_INFINITY,
  share: 1,
  inside: Number.POSITIVE_INFINITY,
};

describe('the fit of an arc', () => {
  // Gander, Golub & Strebel, BIT 34 (1994), geometric fit 4.7398, 2.9835, r 4.7142 [M]; computed 4.7397824, 2.9835327, 4.7142260,
  // SSE 1.2275991 [C] (seamanship-physics.md §11).
  test('is the published geometric circle when the radius is free and both sides count', () => {
    const points = [
      [1, 7],
      [2, 6],
      [5, 8],
      [7, 7],
      [9, 5],
      [3, 7],
    ].map(([east, north]) => ({ east: east!, north: north!, radius: 0 }));
    const fit = fitArc(points, free)!;
    expect(fit.east).toBeCloseTo(4.7397824, 5);
    expect(fit.north).toBeCloseTo(2.9835327, 5);
    expect(fit.longer).toBeCloseTo(4.714226, 5);
    expect(fit.cost).toBeCloseTo(1.2275991, 6);
  });

  // CRLB, R 30 m, sigma 1.5 m, 100 points, arc 20°: centre to 32.5 m (radius free), 1.48 m (known) [C] (same place).
  test.each([
    [Number.POSITIVE_INFINITY, 32.5],
    [1e-6, 1.48],
  ])('a short arc with a radius known to %d m tells the centre to %d m', (radiusSigma, sigma) => {
    const points = Array.from({ length: 100 }, (_, i) => {
      const angle = ((-10 + (20 * i) / 99) * Math.PI) / 180;
      return { east: 30 * Math.sin(angle), north: 30 * Math.cos(angle), radius: 30 };
    });
    const fit = fitArc(points, { ...free, start: { east: 0, north: 0 }, noise: 1.5, radiusSigma })!;
    expect(Math.abs(fit.sigma / sigma - 1)).toBeLessThan(0.05);
  });
});

/** A track on an arc at the reach of 40 m of cable in 10 m/s, bearing from `first` to `last` degrees from the anchor. */
function swept(first: number, last: number, more: { heading?: boolean; points?: number } = {}): TrackPoint[] {
  const { heading = true, points = 200 } = more;
  const { reach } = reachNow({
    veered: 40,
    depth: 8,
    rollerHeight: 1.5,
    massPerMetre: 2.3,
    boat: settings().boat,
    windSpeed: Math.hypot(10, 4.5),
  })!;
  const plane = localPlane(MARK);
  return Array.from({ length: points }, (_, i) => {
    const bearing = first + ((last - first) * (1 - Math.cos((i / points) * 9 * Math.PI))) / 2;
    const angle = (bearing * Math.PI) / 180;
    // Neither straight nor free of error: a wave of some decimetres.
    const radius = reach.value + 0.4 * Math.sin(i * 1.7);
    return {
      ...plane.toLatLon({ east: radius * Math.sin(angle), north: radius * Math.cos(angle) }),
      at: START + 10 * i,
      depth: 8,
      wind: 10,
      ...(heading ? { heading: (bearing + 180) % 360 } : {}),
    };
  });
}

const off = (placed: { lat: number; lon: number }) => {
  const { east, north } = localPlane(MARK).toLocal(placed);
  return Math.hypot(east, north);
};

describe('the mark from the track', () => {
  test.each([
    [60, 90],
    [-20, 40],
    [100, 280],
  ])('swept from %d° to %d°: within its sigma', (first, last) => {
    const placed = fromTrack(swept(first, last), 40, settings());
    if (!placed.ok) throw new Error(placed.why);
    expect(placed.how).toBe('track');
    expect(off(placed)).toBeLessThan(placed.sigma);
    expect(placed.sigma).toBeLessThan(5);
    expect(placed.sigma).toBeGreaterThan(1.6);
  });

  test('without a heading a wide arc is enough, a short one leaves the side open', () => {
    const wide = fromTrack(swept(0, 150, { heading: false }), 40, settings());
    if (!wide.ok) throw new Error(wide.why);
    expect(off(wide)).toBeLessThan(wide.sigma);
    expect(fromTrack(swept(0, 8, { heading: false }), 40, settings())).toMatchObject({
      ok: false,
      problem: 'unavailable',
      why: expect.stringMatching(/side/),
    });
  });

  test('what she sailed before she lay there does not count', () => {
    const plane = localPlane(MARK);
    const sailed = Array.from({ length: 60 }, (_, i) => ({
      ...plane.toLatLon({ east: -600 + 5 * i, north: 300 }),
      at: START - 600 + 10 * i,
      depth: 8,
    }));
    const placed = fromTrack([...sailed, ...swept(60, 110)], 40, settings());
    if (!placed.ok) throw new Error(placed.why);
    expect(off(placed)).toBeLessThan(placed.sigma);
  });

  test.each([
    ['no track', [], 40, /too short/],
    ['a short track', swept(60, 90, { points: 12 }), 40, /too short/],
    ['cable unknown', swept(60, 90), undefined, /veered/],
    ['cable shorter than the depth', swept(60, 90), 6, /right\?/],
  ] as const)('%s: unavailable, and why', (_, track, out, why) => {
    expect(fromTrack(track, out, settings())).toMatchObject({
      ok: false,
      problem: 'unavailable',
      why: expect.stringMatching(why),
    });
  });
});
