import { SEA_WATER } from '../nature.ts';
import type { Underwater } from './form.ts';

/** Kinematic viscosity of sea water at about 15 °C, m²/s. */
const VISCOSITY = 1.19e-6;
/** UFC 4-159-03 §4-5: form drag coefficient on breadth × draft; side coefficient in water as shallow as the draft; exponent. */
const FORM = 0.1;
const SHALLOW = 3.2;
const EXPONENT = 2;
/** Midship section over its box (common value for ship-shaped hulls; UFC takes it from the drawings). */
const MIDSHIP = 0.7;

/** Friction coefficient of the ITTC 1957 line, 0.075/(log₁₀Re − 2)², for a length (m) in a stream (m/s). */
export function friction(waterline: number, drift: number): number {
  const reynolds = Math.max((waterline * drift) / VISCOSITY, 1e5);
  return 0.075 / (Math.log10(reynolds) - 2) ** 2;
}

/**
 * Force (N) of a stream (m/s) from right ahead or astern: UFC 4-159-03 §4-5, ½ρV²(0.1·B·T + S·C_f + A_p·C_prop).
 * `propeller`: blade area × its drag coefficient, m² (0 when folded).
 */
export function streamAlong(hull: Underwater, drift: number, propeller = 0, density = SEA_WATER): number {
  const area = FORM * hull.breadth * hull.draft + hull.wetted * friction(hull.waterline, drift) + propeller;
  return 0.5 * density * drift * drift * area;
}

/** Side coefficient C_y = C₀ + (C₁ − C₀)(T/d)^K of UFC 4-159-03 §4-5: shallow water triples the side load. `depth` in metres, ∞ when undefined. */
export function sideCoefficient(inDeepWater: number, draft: number, depth: number | undefined): number {
  const ratio = depth === undefined ? 0 : Math.min(1, draft / Math.max(depth, draft));
  return inDeepWater + (SHALLOW - inDeepWater) * ratio ** EXPONENT;
}

/** C₀ = 0.22√χ with χ = L²·A_m/(B·∇), A_m ≈ 0.7·B·T (UFC 4-159-03 §4-5; χ from memory). */
const deepSideCoefficient = ({ waterline, draft, volume }: Underwater): number =>
  0.22 * Math.sqrt((waterline * waterline * MIDSHIP * draft) / volume);

/** Force (N) of a stream (m/s) from abeam in water of a depth (m): UFC 4-159-03 §4-5, ½ρV²·L·T·C_y. */
export function streamAcross(
  hull: Underwater,
  drift: number,
  depth?: number,
  inDeepWater = deepSideCoefficient(hull),
  density = SEA_WATER,
): number {
  const coefficient = sideCoefficient(inDeepWater, hull.draft, depth);
  return 0.5 * density * drift * drift * hull.waterline * hull.draft * coefficient;
}
