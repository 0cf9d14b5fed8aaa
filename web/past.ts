import type { State } from '../shared/state.ts';

/**
 * States that are not what the boat tells now, but how she lay at some moment of a recorded night. Their figures stand as they were
 * then: they grow no older, and a lost link takes nothing from them. Only the logbook page makes them.
 */
const states = new WeakSet<State>();

export function ofThePast(state: State): State {
  states.add(state);
  return state;
}

export const isPast = (state: State): boolean => states.has(state);
