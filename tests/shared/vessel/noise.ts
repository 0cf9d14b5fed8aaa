import { randomStreams } from '../../../server/simulate/random.ts';

/** Standard normal numbers, the same series every time for the same seed. */
export const gaussian = (seed: number): (() => number) => randomStreams(seed)().normal;

/** A first-order Gauss-Markov series, one value a second: standard deviation sigma, correlated over tau seconds. */
export function gaussMarkov(sigma: number, tau: number, seed: number): () => number {
  const normal = gaussian(seed);
  const keep = Math.exp(-1 / tau);
  let value = sigma * normal();
  return () => {
    value = keep * value + sigma * Math.sqrt(1 - keep * keep) * normal();
    return value;
  };
}
