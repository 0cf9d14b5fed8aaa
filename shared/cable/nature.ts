/** Standard gravity, m/s² (CGPM 1901, exact). */
const GRAVITY = 9.80665;
/** kg/m³: air at 15 °C and 1013 hPa; sea water; mild steel; polyamide fibre (common handbook values). */
export const AIR = 1.225;
export const SEA_WATER = 1025;
const STEEL = 7850;
const NYLON = 1140;

/** What a metre of cable of this mass in air (kg/m) weighs in sea water, N/m. Nylon is nearly weightless there. */
export function submergedWeight(massPerMetre: number, material: 'steel' | 'nylon' = 'steel'): number {
  const density = material === 'steel' ? STEEL : NYLON;
  return massPerMetre * GRAVITY * (1 - SEA_WATER / density);
}
