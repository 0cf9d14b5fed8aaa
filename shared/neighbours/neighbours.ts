import { findNeighbours } from './findings.ts';
import { NEIGHBOURS } from './limits.ts';
import { lookAround } from './look.ts';
import type { Own } from './own.ts';
import type { NeighboursState } from './state.ts';

/** The room's door. */
export { takeAway, tellNeighbour } from './hand.ts';
export { hearAis } from './hear.ts';
export type { Own } from './own.ts';
export { createNeighbours, type NeighboursState } from './state.ts';

/** To be called at each whole second: looks at all neighbours now and then, and keeps what is seen and found in the state. */
export function passNeighbours(state: NeighboursState, at: number, ourBoat: () => Own): void {
  if (at % NEIGHBOURS.every !== 0) return;
  if (state.targets.length === 0 && state.told.length === 0 && state.views.length === 0) return;
  const own = ourBoat();
  state.views = lookAround(state, own);
  state.found = findNeighbours(state, state.views, own);
}
