import { describe, expect, test } from 'vitest';
import { resultant } from '../../../shared/cable/lie.ts';
import { displacement, type Form, underwater, windage } from '../../../shared/cable/loads/form.ts';
import { friction, sideCoefficient, streamAcross, streamAlong } from '../../../shared/cable/loads/stream.ts';
import { tableLoad } from '../../../shared/cable/loads/table.ts';
import { acrossByAngle, windLoad, windPressure } from '../../../shared/cable/loads/wind.ts';
import { FOOT, fromKnots } from '../../../shared/quantities/units.ts';

const LBF = 4.4482216;
const sloop: Form = { hull: 'monohull', length: 12, beam: 4, draft: 1.9, windage: {} };

describe('wind', () => {
  test.each([
    // q at 1.225 kg/m³ [C].
    [15, 36.4725],
    [20, 64.84],
    [25, 101.3125],
    [30, 145.89],
    [40, 259.36],
    [50, 405.25],
    [60, 583.5601],
  ])('pressure at %d kn', (knots, pascals) => {
    expect(windPressure(fromKnots(knots))).toBeCloseTo(pascals, 3);
  });

  test('25 kn on 12 m² [C]', () => {
    expect(windLoad(12, fromKnots(25))).toBeCloseTo(1215.750095, 4);
  });

  test('side force by angle: nothing from ahead and astern, whole from abeam, symmetrical', () => {
    expect(acrossByAngle(0)).toBe(0);
    expect(acrossByAngle(Math.PI)).toBeCloseTo(0, 12);
    expect(acrossByAngle(Math.PI / 2)).toBeCloseTo(1, 12);
    for (const theta of [0.2, 0.7, 1.3]) {
      expect(acrossByAngle(Math.PI - theta)).toBeCloseTo(acrossByAngle(theta), 12);
      expect(acrossByAngle(-theta)).toBeCloseTo(-acrossByAngle(theta), 12);
    }
  });

  test('estimated drag areas lie by what the trade publishes, and say how unsure they are', () => {
    // A third of what ABYC H-40 implies at 30 kn: 30 ft 21.34, 35 ft 27.44, 40 ft 36.59, 50 ft 48.78 m² [C].
    for (const [feet, beam, implied] of [
      [30, 3.1, 21.34],
      [35, 3.5, 27.44],
      [40, 3.9, 36.59],
      [50, 4.6, 48.78],
    ] as const) {
      const { value, sigma } = windage({ ...sloop, length: feet * FOOT, beam }).ahead;
      expect(Math.abs(value - implied / 3)).toBeLessThan(sigma);
    }
    expect(windage({ ...sloop, windage: { area: 22 } }).ahead).toEqual({
      value: 22,
      sigma: expect.closeTo(3.3, 9),
    });
    // Catamaran: about her frontal area (common practice); 12 × 6.5 m: 16 to 24 m².
    const cat = windage({ ...sloop, hull: 'catamaran', beam: 6.5 }).ahead.value;
    expect(cat).toBeGreaterThan(16);
    expect(cat).toBeLessThan(24);
  });
});

describe('stream', () => {
  /** FFG-7, UFC 4-159-03 table 4-6, 1.5 m/s: L_wl 124.36 m, T 4.389 m [M], C₀ 0.85. */
  const frigate = { waterline: 124.36, breadth: 13.7, draft: 4.389, volume: 4000, wetted: 2000 };

  test.each([
    // depth m, published MN [F], reproduced MN [C]
    [45.7, 0.55, 0.5492],
    [15.2, 0.66, 0.6589],
    [7.62, 1.03, 1.0267],
    [6.096, 1.3, 1.303],
    [4.572, 1.9, 1.8999],
  ])('FFG-7 across 1.5 m/s in %d m of water: %d MN', (depth, published, computed) => {
    const force = streamAcross(frigate, 1.5, depth, 0.85, 1026) / 1e6;
    expect(force).toBeCloseTo(published, 2);
    expect(force).toBeCloseTo(computed, 3);
  });

  test('own hull, L 11.5, T 1.1, 9 t, B 4 m at 1 m/s, ρ 1026 [C]', () => {
    const hull = { waterline: 11.5, breadth: 4, draft: 1.1, volume: 9000 / 1026, wetted: 29.479 };
    expect(1.7 * hull.draft * hull.waterline + hull.volume / hull.draft).toBeCloseTo(29.479, 3);
    expect(friction(11.5, 1)).toBeCloseTo(0.0030179, 7);
    // By the same formula, Re = 4.832e6.
    expect(friction(11.5, 0.5)).toBeCloseTo(0.0034183, 6);
    expect(streamAlong({ ...hull, breadth: 0 }, 1, 0, 1026)).toBeCloseTo(45.64, 2);
    expect(streamAlong({ ...hull, wetted: 0 }, 1, 0, 1026)).toBeCloseTo(225.72, 2);
    expect(streamAlong({ ...hull, breadth: 0, wetted: 0 }, 1, 1.2, 1025)).toBeCloseTo(615, 9);
  });

  test('shallow water triples the side load, and no deeper draft than the water is counted', () => {
    expect(sideCoefficient(0.85, 2, undefined)).toBe(0.85);
    expect(sideCoefficient(0.85, 2, 2)).toBeCloseTo(3.2, 12);
    expect(sideCoefficient(0.85, 2, 1)).toBeCloseTo(3.2, 12);
    const hull = underwater(sloop);
    expect(streamAcross(hull, 1, 2.2) / streamAcross(hull, 1)).toBeGreaterThan(2.5);
  });

  test('estimated hulls are plausible: a 12 m sloop weighs about 9 t and has 30 to 45 m² of wetted surface', () => {
    expect(displacement(sloop).value).toBeCloseTo(8986, 0);
    const hull = underwater(sloop);
    expect(hull.wetted).toBeGreaterThan(30);
    expect(hull.wetted).toBeLessThan(50);
    expect(displacement(sloop).sigma).toBeCloseTo(0.3 * 8986, 0);
    expect(displacement({ ...sloop, displacement: 7500 })).toEqual({ value: 7500, sigma: 750 });
  });
});

describe('both together', () => {
  test('wind from 270° with 1215.75 N, stream setting 180° with 615 N [C]', () => {
    const sum = resultant([
      { toward: 90, force: 1215.750095 },
      { toward: 180, force: 615 },
    ]);
    expect(sum.force).toBeCloseTo(1362.451208, 5);
    expect(sum.toward).toBeCloseTo(116.833048, 5);
  });
});

describe('design table beside our figure', () => {
  test.each([
    // ABYC H-40, working column (waterwayguide.com [F]): ft, lbf. Narrow boats, so that length decides.
    [20, 360],
    [25, 490],
    [30, 700],
    [35, 900],
    [40, 1200],
    [50, 1600],
    [60, 2000],
  ])('%d ft → %d lbf', (feet, lbf) => {
    expect(tableLoad({ hull: 'monohull', length: feet * FOOT, beam: 2 })).toBeCloseTo(lbf * LBF, 3);
  });

  test('32 ft × 12 ft powerboat → 900 lbf = 4.003399 kN (Gerr, Table 24-1 [F])', () => {
    const load = tableLoad({ hull: 'monohull', length: 32 * FOOT, beam: 12 * FOOT }, 'power')!;
    expect(load / 1000).toBeCloseTo(4.003399, 5);
  });

  test('beam decides when it gives more; multihulls half as much again; nothing beyond the table', () => {
    const narrow = tableLoad({ hull: 'monohull', length: 10, beam: 2.5 })!;
    expect(tableLoad({ hull: 'monohull', length: 10, beam: 3.6 })).toBeGreaterThan(narrow);
    expect(tableLoad({ hull: 'catamaran', length: 10, beam: 6 })).toBeCloseTo(1.5 * narrow, 6);
    expect(tableLoad({ hull: 'monohull', length: 25, beam: 5 })).toBeUndefined();
  });
});
