import { distanceBearing } from './earth/geodesic.ts';
import type { EngineState } from './engine.ts';
import type { Answer, Event } from './events.ts';
import type { LatLon } from './quantities/estimate.ts';
import { toKnots } from './quantities/units.ts';
import type { LeftView } from './state.ts';
import type { VesselView } from './vessel/view.ts';
import type { WorstLoad } from './watch/view.ts';
import { pushNow, veered, type WatchState } from './watch/watch.ts';
import type { Given, WeighState } from './weigh/weigh.ts';

/** What ties watch and weighing, which do not know each other. */

/** An anchorage that was closed by "aweigh": how it was then. */
export interface Left {
  at: number;
  by?: string;
  watch: WatchState;
  weigh?: WeighState;
  leaving?: Leaving;
}

/** The way out: where she was last, metres run, metres from the mark. */
interface Leaving extends LatLon {
  run: number;
  distance: number;
  until?: number;
}

/** What the watch knows and weighing needs; undefined without a mark. */
export function given({ watch, settings }: EngineState, vessel: VesselView): Given | undefined {
  const { mark, circle } = watch;
  if (!mark) return undefined;
  const out = veered(watch, settings);
  const stream = pushNow(watch, vessel)?.stream;
  return {
    mark: { ...mark },
    ...(out === undefined ? {} : { veered: out }),
    ...(circle ? { circleRadius: circle.radius } : {}),
    ...(stream ? { stream } : {}),
  };
}

/** A mistaken "aweigh" can be taken back for this long, seconds. */
const TAKEN_BACK_WITHIN = 1800;

/** The track of leaving ends after so many seconds, so many metres from the mark, or with the next mark. */
const LEAVING = { seconds: 7200, metres: 5000 };

/** Keeps the anchorage before it is closed, with its summary in words; undefined when there is none. */
export function leave(state: EngineState, at: number, by: string): { left: Left; words: string } | undefined {
  const { mark, since, farthest, load } = state.watch;
  if (!mark || since === undefined) return undefined;
  // Its members are not changed when the watch is closed: closing puts new ones in their place.
  const left: Left = {
    at,
    by,
    watch: { ...state.watch, track: [] },
    ...(state.weigh ? { weigh: state.weigh } : {}),
  };
  const hours = (at - since) / 3600;
  const lain = hours < 2 ? `${Math.round(60 * hours)} min` : `${hours.toFixed(1)} h`;
  const swung = farthest === undefined ? '' : `, at most ${farthest.toFixed(0)} m from the mark`;
  const worst = load?.worst ? ` ${loadInWords(load.worst, state.settings.cable.workingLoad)}` : '';
  return { left, words: `Aweigh after ${lain}${swung}.${worst}` };
}

const kilonewtons = (newtons: number): string => `${(newtons / 1000).toFixed(1)} kN`;

/** The worst load of an anchorage, with what it is reckoned from and what is not in it. */
function loadInWords({ value, sigma, wind, drift }: WorstLoad, workingLoad: number | undefined): string {
  const stream =
    drift === undefined ? ', stream not known' : ` and stream of ${toKnots(drift).toFixed(1)} kn`;
  const share =
    workingLoad === undefined
      ? ''
      : `, ${Math.round((100 * value) / workingLoad)} % of the chain's working load`;
  return `Worst steady load about ${kilonewtons(value)} (± ${kilonewtons(2 * sigma)}) in ${Math.round(toKnots(wind))} kn of wind${stream}${share}; sheer and waves not counted.`;
}

/** To be called at each fix: follows her out after "aweigh". Words when that is over. */
export function followLeaving(state: EngineState, { roller }: VesselView): string | undefined {
  const { left } = state;
  const mark = left?.watch.mark;
  if (!left || !mark || !roller || left.leaving?.until !== undefined) return undefined;
  const { lat, lon } = roller.value;
  const { distance } = distanceBearing(mark, roller.value);
  const before = left.leaving ?? { lat, lon, run: 0, distance };
  const step = distanceBearing(before, roller.value).distance;
  // Shorter steps are the receiver's noise more than her way.
  const moved = step >= 5;
  left.leaving = moved ? { lat, lon, run: before.run + step, distance } : { ...before, distance };
  const seconds = roller.at - left.at;
  const anchored = state.watch.phase !== 'no-mark';
  if (seconds < LEAVING.seconds && distance < LEAVING.metres && !anchored) return undefined;
  left.leaving.until = roller.at;
  return `Track of leaving kept: ${(left.leaving.run / 1000).toFixed(1)} km in ${Math.round(seconds / 60)} min, ${distance < 1000 ? `${distance.toFixed(0)} m` : `${(distance / 1000).toFixed(1)} km`} from the mark.`;
}

/** The last anchorage for people. */
export function leftView({ left }: EngineState): LeftView | undefined {
  const mark = left?.watch.mark;
  const since = left?.watch.since;
  if (!left || !mark || since === undefined) return undefined;
  const { farthest, load } = left.watch;
  const { run = 0, distance = 0, until } = left.leaving ?? {};
  return {
    at: left.at,
    by: left.by ?? '',
    mark: { ...mark },
    since,
    ...(farthest === undefined ? {} : { farthest }),
    ...(load?.worst ? { worstLoad: { ...load.worst } } : {}),
    undoUntil: left.at + TAKEN_BACK_WITHIN,
    leaving: { run, distance, ...(until === undefined ? {} : { until }) },
  };
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
