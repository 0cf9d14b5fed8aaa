import { destination } from '../earth/geodesic.ts';
import type { Answer } from '../events.ts';
import { herCable } from './circle.ts';
import { NEIGHBOURS } from './limits.ts';
import type { Own } from './own.ts';
import type { NeighboursState } from './state.ts';
import type { HandNeighbour } from './view.ts';

/** Neighbours told by hand that are kept. */
const MOST_TOLD = 20;

/** Takes a neighbour by range and bearing from our roller. Her anchor is reckoned ahead of her, as she is taken to lie as we do. */
export function tellNeighbour(state: NeighboursState, own: Own, told: HandNeighbour, by: string): Answer {
  if (!own.roller) return { ok: false, problem: 'unavailable', why: 'Our own position is not known now.' };
  if (state.told.length >= MOST_TOLD)
    return {
      ok: false,
      problem: 'refused',
      why: `At most ${MOST_TOLD} neighbours can be told by hand: take one away first.`,
    };
  const length = told.length ?? NEIGHBOURS.length;
  const reach = herCable(length, length / 3, own.depth, own.windSpeed, told.veered)?.reach ?? 0;
  const bow = destination(own.roller, told.bearing, told.range);
  const anchor = own.lie === undefined ? bow : destination(bow, own.lie, reach);
  state.told.push({ ...told, id: `hand-${++state.toldCount}`, by, at: own.at, anchor, reach });
  return { ok: true };
}

export function takeAway(state: NeighboursState, id: string): Answer {
  const index = state.told.findIndex((told) => told.id === id);
  if (index < 0) return { ok: false, problem: 'unknown', why: `There is no neighbour ${id} told by hand.` };
  state.told.splice(index, 1);
  return { ok: true };
}
