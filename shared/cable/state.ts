import type { Estimate } from '../quantities/estimate.ts';

/** slack: it leads within 15° of straight down and bears next to nothing; taut: all of it is off the bottom; fair: between. */
export type CableState = 'slack' | 'fair' | 'taut';

/** Tangent of half of 75°: a cable that leads steeper than that at the roller hangs, rather than holds. */
const HANGS = Math.tan((75 / 2) * (Math.PI / 180));

/**
 * State of the cable from the distance between roller and anchor (m, with its sigma), for `veered` metres out and the roller
 * `height` metres above the bottom. The limits do not depend on the cable's weight: for a grounded catenary tan(φ/2) = tanh(u/2)
 * fixes the shape, and at lift-off φ = 2·atan(h/L). `certainty` is the probability of that state.
 */
export function cableState(request: {
  distance: Estimate;
  veered: number;
  height: number;
}): { state: CableState; certainty: number } | undefined {
  const { distance, veered, height } = request;
  const sane = veered > 0 && height > 0 && distance.sigma >= 0 && Number.isFinite(distance.value);
  if (!sane) return undefined;
  if (veered <= height) return { state: 'taut', certainty: 1 };
  const lifted = reachAtLead(veered, height, height / veered);
  const hangs = Math.min(lifted, reachAtLead(veered, height, HANGS));
  const slack = below(hangs, distance);
  const taut = 1 - below(lifted, distance);
  const fair = Math.max(0, 1 - slack - taut);
  if (fair >= slack && fair >= taut) return { state: 'fair', certainty: fair };
  return slack > taut ? { state: 'slack', certainty: slack } : { state: 'taut', certainty: taut };
}

/** Reach of a part-grounded cable that leads at an angle φ below the horizontal at the roller, t = tan(φ/2). */
const reachAtLead = (veered: number, height: number, t: number): number =>
  veered - height / t + (height * Math.atanh(t) * (1 - t * t)) / (t * t);

/** Probability that the true distance is less than a limit, for a normal error. */
function below(limit: number, { value, sigma }: Estimate): number {
  if (sigma < 1e-9) return limit > value ? 1 : 0;
  const z = (limit - value) / sigma;
  // Abramowitz & Stegun 26.2.17, error below 7.5e-8.
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const series =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * series;
  return z > 0 ? 1 - tail : tail;
}
