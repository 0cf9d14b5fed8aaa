import type { Limits, Settings } from '../settings.ts';
import type { CircleState } from './circle.ts';
import type { Confirms } from './confirm.ts';
import type { DragState } from './drag/state.ts';
import type { LyingState } from './lying.ts';
import type { Range } from './range.ts';
import type { TrackKept } from './track.ts';
import type { Mark, Sector, WatchView } from './view.ts';
import type { WindMemory } from './wind-memory.ts';
import type { LoadState } from './worst-load.ts';

/** All that the watch remembers: plain data. */
export interface WatchState extends TrackKept {
  phase: WatchView['phase'];
  /** When the present watch began: the mark was set while there was none. A mark that is moved begins no other watch. */
  since?: number;
  mark?: Mark;
  /**
   * What people have told since the anchor was let go; it goes before hawse.yaml and is forgotten when the anchor is aweigh, so
   * that no limit of one anchorage is taken to the next. null: none, or computed, whatever hawse.yaml says.
   */
  told: {
    veered?: number;
    circleRadius?: number | null;
    limits: { [K in keyof Limits]?: number | null };
    sectors?: Sector[];
  };
  circle?: CircleState;
  range?: Range;
  /** Largest distance from the mark since it was set, metres, of fixes that were not doubtful. */
  farthest?: number;
  confirms: Confirms;
  wind?: WindMemory;
  drag?: DragState;
  load?: LoadState;
  /** Kept without a mark too. */
  lying?: LyingState;
  /** Last whole second that was judged, and last time the wind over ground was known. */
  second?: number;
  groundWindAt?: number;
}

export const createWatch = (): WatchState => ({
  phase: 'no-mark',
  told: { limits: {} },
  track: [],
  trackEvery: 0,
  confirms: {},
});

/** Metres out beyond the roller: as told, else what is usually veered; undefined when neither is known. */
export const veered = (state: WatchState, settings: Settings): number | undefined =>
  state.told.veered ?? settings.cable.veered;

/** A limit as it holds now: as told, else from the settings; undefined: not watched. */
export function limit(state: WatchState, settings: Settings, key: keyof Limits): number | undefined {
  const told = state.told.limits[key];
  return told === undefined ? settings.limits[key] : (told ?? undefined);
}

export const LIMIT_KEYS = ['depthBelow', 'depthAbove', 'underKeelBelow', 'windAbove', 'windShift'] as const;

/** All limits as they hold now. */
export function limits(state: WatchState, settings: Settings): Limits {
  const all: Limits = {};
  for (const key of LIMIT_KEYS) {
    const value = limit(state, settings, key);
    if (value !== undefined) all[key] = value;
  }
  return all;
}

/** Back to no mark, with the track kept: whoever closes the mark by mistake finds it again from there. */
export function close(state: WatchState): void {
  const { track } = state;
  for (const key of Object.keys(state) as (keyof WatchState)[]) delete state[key];
  Object.assign(state, createWatch(), { track });
}
