import { steadyPull } from '../cable/reach.ts';
import type { Settings } from '../settings.ts';
import type { VesselView } from '../vessel/view.ts';
import { pushNow } from './lying.ts';
import type { WatchState } from './state.ts';
import type { WorstLoad } from './view.ts';

/** Wind that has blown so for about this long: a hull does not feel a shorter gust, nor a faulty reading. Seconds [P]. */
const WIND_MEAN = 30;
/** How often the load is reckoned, seconds. */
const EVERY = 10;

/** The running mean of the wind, m/s, and the worst load so far; plain data. */
export interface LoadState {
  wind: number;
  at: number;
  reckonedAt: number;
  worst?: WorstLoad;
}

/**
 * Keeps the worst steady pull on the cable in this anchorage, reckoned from wind and stream (½ρC_d·A·V², UFC 4-159-03 for the
 * stream). Sheer, waves and snatching are not in it: they can multiply it. Not while weighing, when the engine moves her.
 */
export function watchLoad(state: WatchState, settings: Settings, vessel: VesselView): void {
  const wind = (vessel.windGround ?? vessel.windApparent)?.value.speed;
  if (state.phase !== 'watching' || wind === undefined) return;
  const { at } = vessel;
  state.load ??= { wind, at, reckonedAt: at };
  const { load } = state;
  load.wind += (1 - Math.exp(-Math.max(0, at - load.at) / WIND_MEAN)) * (wind - load.wind);
  load.at = at;
  if (at - load.reckonedAt < EVERY) return;
  load.reckonedAt = at;
  const push = pushNow(state, vessel);
  const drift = push?.stream?.drift.value;
  const pull = steadyPull({
    boat: settings.boat,
    windSpeed: load.wind,
    ...(drift === undefined ? {} : { streamDrift: drift }),
    ...(push?.divergence === undefined ? {} : { divergence: push.divergence }),
  });
  if (load.worst && pull.value <= load.worst.value) return;
  load.worst = { ...pull, at, wind: load.wind, ...(drift === undefined ? {} : { drift }) };
}
