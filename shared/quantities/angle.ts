/** Angles in degrees. A direction is 0 ≤ d < 360, clockwise from north; a signed angle is −180 < a ≤ 180, starboard positive. */

export const degrees = (radians: number): number => (radians * 180) / Math.PI;
export const radians = (degreesIn: number): number => (degreesIn * Math.PI) / 180;

/** Any finite angle as a direction, 0 ≤ d < 360. */
export function direction(angle: number): number {
  const d = angle % 360;
  const positive = d < 0 ? d + 360 : d;
  return positive >= 360 || positive === 0 ? 0 : positive;
}

/** Any finite angle as a signed angle, −180 < a ≤ 180. */
export function signed(angle: number): number {
  const d = direction(angle);
  return d > 180 ? d - 360 : d;
}

/** Signed turn that brings direction `from` onto direction `to`, −180 < a ≤ 180, clockwise (to starboard) positive. */
export const turn = (from: number, to: number): number => signed(to - from);

/** The opposite direction. */
export const reciprocal = (d: number): number => direction(d + 180);

/** Circular mean of directions, with the mean resultant length 0..1 (1: all alike); undefined when they cancel out or none is given. */
export function circularMean(
  directions: Iterable<number>,
): { mean: number; concentration: number } | undefined {
  let east = 0;
  let north = 0;
  let count = 0;
  for (const d of directions) {
    east += Math.sin(radians(d));
    north += Math.cos(radians(d));
    count++;
  }
  const length = Math.hypot(east, north);
  if (count === 0 || length < 1e-9 * count) return undefined;
  return { mean: direction(degrees(Math.atan2(east, north))), concentration: length / count };
}

/** A direction in three figures, as spoken on board: 005°. */
export const threeFigures = (d: number): string =>
  `${String(Math.round(direction(d)) % 360).padStart(3, '0')}°`;
