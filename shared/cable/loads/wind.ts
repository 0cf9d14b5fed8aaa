import { AIR } from '../nature.ts';

/** Pressure of wind at a speed (m/s): ½ρV², pascals. */
export const windPressure = (speed: number): number => 0.5 * AIR * speed * speed;

/** Force (N) of wind at a speed (m/s) on a drag area C_d·A (m²): F = ½ρ·C_d·A·V² (Larsson & Eliasson, Principles of Yacht Design). */
export const windLoad = (area: number, speed: number): number => windPressure(speed) * area;

/** How much more than its steady value the pull gets when she sheers 30° to each side (Practical Sailor, Good Old Boat: +50 % for 60° in all). */
export const SHEER_FACTOR = 1.5;
/** A gust over the mean of ten minutes (common practice over open water; more under high land). */
export const GUST_FACTOR = 1.4;

/** Wind force on the side by relative angle in units of that from abeam: UFC 4-159-03, (sin θ − sin 5θ/20)/(1 − 1/20), from memory. */
export const acrossByAngle = (theta: number): number =>
  (Math.sin(theta) - Math.sin(5 * theta) / 20) / (1 - 1 / 20);
