import type { Settings } from '../settings.ts';
import type { VesselView } from '../vessel/view.ts';
import { lieForTrack, watchAnchor } from './drag/drag.ts';
import { followLie } from './lying.ts';
import { rangeNow } from './range.ts';
import type { WatchState } from './state.ts';
import { follow } from './track.ts';
import { watchLoad } from './worst-load.ts';

export { command, type WatchCommand } from './command.ts';
export { findings } from './findings.ts';
export { lieEvent, reachView, watchView } from './look.ts';
export { pushNow } from './lying.ts';
export { report } from './report.ts';
export { createWatch, veered, type WatchState } from './state.ts';

/** To be called at each fresh fix, before `findings`: keeps the track, with or without a mark, and the farthest distance. */
export function onFix(state: WatchState, settings: Settings, vessel: VesselView): void {
  rangeNow(state, vessel);
  followLie(state, vessel);
  watchAnchor(state, settings, vessel);
  watchLoad(state, settings, vessel);
  follow(state, vessel, lieForTrack(state));
}
