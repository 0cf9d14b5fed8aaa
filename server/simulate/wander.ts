import type { Random } from './random.ts';

/**
 * A value that wanders about zero with standard deviation `sigma` and forgets itself with 1/e time `tau` seconds (a Gauss–Markov,
 * or Ornstein–Uhlenbeck, process, stepped exactly). It starts as if it had wandered for ever.
 */
export interface Wander {
  value: number;
  step(): number;
}

export function createWander(sigma: number, tau: number, dt: number, random: Random): Wander {
  const keep = Math.exp(-dt / tau);
  const fresh = sigma * Math.sqrt(1 - keep * keep);
  const wander: Wander = {
    value: sigma * random.normal(),
    step() {
      wander.value = keep * wander.value + fresh * random.normal();
      return wander.value;
    },
  };
  return wander;
}
