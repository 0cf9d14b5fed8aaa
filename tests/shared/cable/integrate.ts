/**
 * An independent catenary: the differential equations of a hanging cable, marched from its lower end by Runge-Kutta of fourth
 * order, without any closed form. Per metre of unstretched cable: dx = cos θ·(1 + T/EA), dz = sin θ·(1 + T/EA), dV = w.
 */
export interface Piece {
  length: number;
  weight: number;
  stiffness?: number;
}

export function march(
  pieces: readonly Piece[],
  horizontal: number,
  upAtStart: number,
  steps = 4000,
): { x: number; z: number; up: number } {
  let x = 0;
  let z = 0;
  let up = upAtStart;
  for (const { length, weight, stiffness } of pieces) {
    const step = length / steps;
    const slope = (v: number): { dx: number; dz: number } => {
      const tension = Math.sqrt(horizontal * horizontal + v * v);
      const stretch = stiffness === undefined ? 1 : 1 + tension / stiffness;
      return { dx: (horizontal / tension) * stretch, dz: (v / tension) * stretch };
    };
    for (let k = 0; k < steps; k++) {
      const start = slope(up);
      const middle = slope(up + (weight * step) / 2);
      const end = slope(up + weight * step);
      x += (step / 6) * (start.dx + 4 * middle.dx + end.dx);
      z += (step / 6) * (start.dz + 4 * middle.dz + end.dz);
      up += weight * step;
    }
  }
  return { x, z, up };
}
