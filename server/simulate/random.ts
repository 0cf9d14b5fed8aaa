import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Random numbers that are the same for the same seed on every machine. */
export interface Random {
  /** Evenly spread, 0 < x < 1. */
  uniform(): number;
  /** Normally distributed with mean 0 and standard deviation 1 (Box–Muller). */
  normal(): number;
}

const WORD = 2 ** 32;

/**
 * Streams of random numbers of one seed (an integer), each far from the others on the generator's circle (a jump is 2⁶⁴ numbers):
 * what one part of the simulator draws does not change what another part sees.
 */
export function randomStreams(seed: number): () => Random {
  const generator = xoroshiro128plus(seed);
  return () => {
    generator.jump();
    return fromWords(generator.clone());
  };
}

function fromWords(generator: { next(): number }): Random {
  let spare: number | undefined;
  const uniform = () => ((generator.next() >>> 0) + 0.5) / WORD;
  return {
    uniform,
    normal() {
      if (spare !== undefined) {
        const kept = spare;
        spare = undefined;
        return kept;
      }
      const radius = Math.sqrt(-2 * Math.log(uniform()));
      const angle = 2 * Math.PI * uniform();
      spare = radius * Math.sin(angle);
      return radius * Math.cos(angle);
    },
  };
}
