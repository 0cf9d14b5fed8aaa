import type { AlertKind, Finding } from '../alerts/alert.ts';
import type { Settings } from '../settings.ts';
import type { VesselView } from '../vessel/view.ts';
import { settleCircle } from './circle.ts';
import { findDeep, findShoal } from './depth.ts';
import { findDrag } from './drag/drag.ts';
import { findDepthLost, findHeadingLost, findWindLost } from './lost.ts';
import type { Condition } from './moment.ts';
import { findOutsideCircle, forgetCircle } from './outside-circle.ts';
import { findPositionDoubtful, findPositionLost } from './position.ts';
import { findOutsideSector } from './sectors.ts';
import type { WatchState } from './state.ts';
import { findWindShift, findWindSpeed } from './wind.ts';

/** All that the watch looks out for. */
const WATCHING: Condition[] = [
  findDrag,
  findOutsideCircle,
  findOutsideSector,
  findPositionLost,
  findPositionDoubtful,
  findShoal,
  findDeep,
  findWindSpeed,
  findWindShift,
  findHeadingLost,
  findWindLost,
  findDepthLost,
];

/** What makes no sense while she is hove in to her anchor and sails off: stood down while weighing. */
export const STANDS_DOWN = ['drag', 'outside-circle', 'wind-shift'] as const satisfies AlertKind[];
const WEIGHING = WATCHING.filter(
  (condition) => ![findDrag, findOutsideCircle, findWindShift].includes(condition),
);

/**
 * What holds at `at` (UNIX seconds): all of it, each time. To be asked at each fix, at each whole second and after each order;
 * how long things must last is counted in between, in the state. Without a mark nothing is watched and nothing found.
 */
export function findings(state: WatchState, settings: Settings, vessel: VesselView, at: number): Finding[] {
  const found: Finding[] = [];
  const { since } = state;
  if (since === undefined) return found;
  settleCircle(state, settings, vessel, at);
  if (vessel.windGround) state.groundWindAt = at;
  const second = Math.floor(at);
  const newSecond = second !== state.second;
  state.second = second;
  const weighing = state.phase === 'weighing';
  // What stands down begins anew afterwards: nothing of before may count.
  if (weighing) {
    forgetCircle(state.confirms);
    delete state.confirms['wind-shift'];
  }
  const moment = { state: state as WatchState & { since: number }, settings, vessel, at, newSecond };
  for (const condition of weighing ? WEIGHING : WATCHING) {
    const finding = condition(moment);
    if (finding) found.push(finding);
  }
  return found;
}
