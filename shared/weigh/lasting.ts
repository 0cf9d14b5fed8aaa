import type { Rule } from './limits.ts';
import type { Spell, WeighState } from './state.ts';

/**
 * Does a condition hold, by its rule? `now`: true, false, or undefined when it can't be judged, which changes nothing. To be
 * asked at every fix and whole second; it changes its mind when the opposite has lasted.
 */
export function lasting(
  state: WeighState,
  key: string,
  rule: Rule,
  now: boolean | undefined,
  at: number,
): boolean {
  const spell: Spell = state.spells[key] ?? { holds: false };
  state.spells[key] = spell;
  if (now === undefined) return spell.holds;
  if (now === spell.holds) {
    delete spell.since;
    return spell.holds;
  }
  spell.since ??= at;
  if (at - spell.since >= (now ? rule.raise : rule.clear)) {
    spell.holds = now;
    delete spell.since;
  }
  return spell.holds;
}

/** Probability that a standard normal value is below z; logistic approximation, wrong by less than 0.01. */
export const chance = (z: number): number => 1 / (1 + Math.exp(-1.702 * Math.max(-30, Math.min(30, z))));
