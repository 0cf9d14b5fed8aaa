/** Beyond this the cable hangs straight down to the last digit. */
export const STEEP = 34;

/** sinh u − u, to the last digit for small u too. */
function sinhLess(u: number): number {
  if (u > 0.7) return Math.sinh(u) - u;
  const q = u * u;
  return ((u * q) / 6) * (1 + (q / 20) * (1 + (q / 42) * (1 + (q / 72) * (1 + (q / 110) * (1 + q / 156)))));
}

/** Solves (sinh u − u)/(cosh u − 1) = bight, 0 < bight < 1, for u: how far the grounded catenary has turned up at the roller. */
export function riseOf(bight: number): number {
  // The left side is increasing, concave and at most u/3: Newton from 3·bight creeps up on the root and never passes it.
  let u = 3 * bight;
  for (let step = 0; step < 60; step++) {
    const sinhHalf = Math.sinh(u / 2);
    const coshLess = 2 * sinhHalf * sinhHalf;
    const value = sinhLess(u) / coshLess;
    const slope = 1 - (value * Math.cosh(u / 2)) / sinhHalf;
    const change = (bight - value) / slope;
    if (!(change > u * 1e-15)) return u;
    u += change;
    if (u > STEEP) return u;
  }
  return u;
}

/** Solves sinh(u)/u = 1 + excess, excess ≥ 0, for u: half the span of the lifted catenary in units of a. */
export function halfSpanOf(excess: number): number {
  if (excess <= 0) return 0;
  // ln(sinh u / u) is increasing and at most u²/6, so this start is never beyond the root.
  const target = Math.log1p(excess);
  let u = Math.sqrt(6 * target);
  for (let step = 0; step < 60; step++) {
    const value = Math.log1p(sinhLess(u) / u) - target;
    const slope = 1 / Math.tanh(u) - 1 / u;
    const change = value / slope;
    u -= change;
    if (Math.abs(change) <= u * 1e-15) break;
  }
  return u;
}
