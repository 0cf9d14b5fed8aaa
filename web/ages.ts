import type { State } from '../shared/state.ts';
import type { Quantity } from '../shared/vessel/view.ts';
import { age } from './format.ts';
import { trusted, viewAge } from './live.ts';
import { isPast } from './past.ts';
import { words } from './words.ts';

/** A figure younger than this needs no age beside it, seconds. */
const YOUNG = 3;

/** Seconds since the last good value of a quantity, up to this moment; undefined: never had one, or no word from the boat. */
export function ageOf(state: State, quantity: Quantity): number | undefined {
  const atView = state.vessel.ages[quantity];
  if (atView === undefined) return undefined;
  return isPast(state) ? atView : atView + viewAge.value;
}

/** Beside a figure that is shown: its age, once that is worth saying. */
export function ageBeside(state: State, quantity: Quantity): string | undefined {
  const seconds = ageOf(state, quantity);
  return seconds !== undefined && seconds > YOUNG ? words.age.ago(age(seconds)) : undefined;
}

/** False when the figures of this state cannot be known to hold: no word from the boat. */
export const stands = (state: State): boolean => isPast(state) || trusted.value;

/** In place of a figure that is not shown: when it was last known. */
export function whyMissing(state: State, quantity: Quantity): string {
  if (!stands(state)) return words.age.lost;
  const seconds = ageOf(state, quantity);
  return seconds === undefined ? words.age.never : words.age.ago(age(seconds));
}
