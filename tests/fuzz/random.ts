import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Repeatable chance: a find is found again with the same seed. */
export function createChance(seed: number) {
  const random = xoroshiro128plus(seed);
  const below = (n: number): number => uniformInt(random, 0, n - 1);
  return {
    below,
    pick: <T>(list: readonly T[]): T => list[below(list.length)]!,
    oneIn: (n: number): boolean => below(n) === 0,
    bytes: (length: number): Buffer => Buffer.from(Array.from({ length }, () => below(256))),
  };
}

export type Chance = ReturnType<typeof createChance>;

/** Cuts, doubles, swaps or overwrites somewhere in a text. */
export function mangle(text: string, { below, pick }: Chance, splinters: readonly string[]): string {
  const at = below(text.length + 1);
  switch (below(7)) {
    case 0:
      return text.slice(0, at) + pick(splinters) + text.slice(at + 1);
    case 1:
      return text.slice(0, at) + pick(splinters) + text.slice(at);
    case 2:
      return text.slice(0, at) + text.slice(at + 1 + below(6));
    case 3:
      return text.slice(0, at);
    case 4:
      return text.slice(0, at) + text.slice(Math.max(0, at - below(30)));
    case 5:
      return text.slice(at) + text.slice(0, at);
    default:
      return text.slice(0, at) + String.fromCharCode(below(256)) + text.slice(at + 1);
  }
}
