import type { EngineState } from './engine.ts';
import type { Answer, Event } from './events.ts';
import type { VesselView } from './vessel/view.ts';
import type { WatchView } from './watch/view.ts';
import { type WatchState, watchView } from './watch/watch.ts';
import type { Given, WeighState } from './weigh/weigh.ts';

/** What ties watch and weighing, which do not know each other. */

/** An anchorage that was closed by "aweigh": how it was then. */
export interface Left {
  at: number;
  watch: WatchState;
  weigh?: WeighState;
}

/** What the watch knows and weighing needs; undefined without a mark. */
export function lend({ mark, veered, circle, lie }: WatchView): Given | undefined {
  return (
    mark && {
      mark,
      ...(veered === undefined ? {} : { veered }),
      ...(circle ? { circleRadius: circle.radius } : {}),
      ...(lie?.stream ? { stream: lie.stream } : {}),
    }
  );
}

export const given = (state: EngineState, vessel: VesselView): Given | undefined =>
  lend(watchView(state.watch, state.settings, vessel));

/** A mistaken "aweigh" can be taken back for this long, seconds. */
const TAKEN_BACK_WITHIN = 1800;

/** Keeps the anchorage before it is closed, with its summary in words; undefined when there is none. */
export function leave(state: EngineState, at: number): { left: Left; words: string } | undefined {
  const { mark, since, farthest } = state.watch;
  if (!mark || since === undefined) return undefined;
  // Its members are not changed when the watch is closed: closing puts new ones in their place.
  const left: Left = {
    at,
    watch: { ...state.watch, track: [] },
    ...(state.weigh ? { weigh: state.weigh } : {}),
  };
  const hours = (at - since) / 3600;
  const lain = hours < 2 ? `${Math.round(60 * hours)} min` : `${hours.toFixed(1)} h`;
  const swung = farthest === undefined ? '' : `, at most ${farthest.toFixed(0)} m from the mark`;
  return { left, words: `Aweigh after ${lain}${swung}.` };
}

/** Takes a mistaken "aweigh" back: mark, limits and weighing are as they were, the track goes on. */
export function takeBack(state: EngineState, at: number, by: string): { answer: Answer; events: Event[] } {
  const { left } = state;
  const why = !left
    ? 'There is no "aweigh" to take back.'
    : at - left.at > TAKEN_BACK_WITHIN
      ? 'That "aweigh" is too long ago: tell hawse where the anchor lies.'
      : state.watch.phase !== 'no-mark'
        ? 'A new mark has been set since.'
        : undefined;
  if (why !== undefined || !left) return { answer: { ok: false, problem: 'refused', why: why! }, events: [] };
  state.watch = { ...left.watch, track: state.watch.track };
  if (left.weigh) state.weigh = left.weigh;
  delete state.left;
  const { mark } = state.watch;
  return {
    answer: { ok: true, ...(mark ? { mark: { ...mark } } : {}) },
    events: [{ event: 'mark', t: at, by, ...(mark ? { mark: { ...mark } } : {}) }],
  };
}
