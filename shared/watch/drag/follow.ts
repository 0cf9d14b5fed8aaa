import type { Settings } from '../../settings.ts';
import type { VesselView } from '../../vessel/view.ts';
import { veered, type WatchState } from '../state.ts';
import { movedAlongPull } from './evidence.ts';
import {
  correct,
  createFilter,
  expected,
  type FilterModel,
  forgetReach,
  predict,
  shakeSlow,
} from './filter.ts';
import { BLOCK, MODEL, UNKNOWN_LOAD_SIGMA } from './model.ts';
import { type Reading, readingNow } from './reading.ts';
import type { DragState } from './state.ts';

const WIND_SECONDS = 30;
/** Blocks whose means are kept for the fast path: what was held a minute ago. */
const BEFORE = 3;

/**
 * Takes in one fresh fix. While the position is doubtful nothing is learnt from it: bad sky is never evidence of dragging.
 * Returns the reading for the fast path, undefined when there is none to judge by.
 */
export function followAnchor(state: WatchState, settings: Settings, vessel: VesselView): Reading | undefined {
  const drag = dragOf(state, settings, vessel);
  if (!drag) return undefined;
  if (vessel.positionDoubt) {
    delete drag.block;
    delete drag.outside;
    drag.of.source = '';
    return undefined;
  }
  feelWind(drag, vessel);
  const reading = readingNow(state, settings, vessel, drag.wind?.speed);
  if (!reading) return undefined;
  const model = modelNow(drag);
  if (drag.of.source !== vessel.antenna?.source) {
    // Another receiver, or the same after bad sky, has another slow error.
    if (drag.of.source !== undefined) shakeSlow(drag.filter, model);
    drag.of.source = vessel.antenna?.source ?? '';
  }
  gather(drag, reading, model);
  return reading;
}

/** The drag watch of the present mark: begun anew when the mark is another, undefined without one. */
function dragOf(state: WatchState, settings: Settings, vessel: VesselView): DragState | undefined {
  const { mark } = state;
  if (!mark) {
    delete state.drag;
    return undefined;
  }
  const out = veered(state, settings);
  const now = state.drag;
  if (!now || now.of.lat !== mark.lat || now.of.lon !== mark.lon || now.of.at !== mark.at) {
    const filter = createFilter(vessel.at, mark.sigma, mark.how === 'here', MODEL);
    state.drag = {
      filter,
      of: { lat: mark.lat, lon: mark.lon, at: mark.at, ...(out === undefined ? {} : { veered: out }) },
      before: [],
      quietSince: vessel.at,
    };
  } else if (now.of.veered !== out) {
    forgetReach(now.filter, MODEL);
    delete now.block;
    if (out === undefined) delete now.of.veered;
    else now.of.veered = out;
  }
  return state.drag;
}

function feelWind(drag: DragState, vessel: VesselView): void {
  const speed = vessel.windGround?.value.speed ?? vessel.windApparent?.value.speed;
  if (speed === undefined) {
    if (drag.wind && vessel.at - drag.wind.at > 60) delete drag.wind;
    return;
  }
  const dt = drag.wind ? vessel.at - drag.wind.at : Number.POSITIVE_INFINITY;
  const part = 1 - Math.exp(-dt / WIND_SECONDS);
  drag.wind = {
    speed: drag.wind ? drag.wind.speed + part * (speed - drag.wind.speed) : speed,
    at: vessel.at,
  };
}

const modelNow = (drag: DragState): FilterModel =>
  drag.wind ? MODEL : { ...MODEL, loadSigma: UNKNOWN_LOAD_SIGMA };

/** Keeps the farthest of a block's readings; the second farthest, when there are three or more, so that one stray fix does nothing. */
function gather(drag: DragState, reading: Reading, model: FilterModel): void {
  const { block } = drag;
  if (block && reading.at - block.since < BLOCK.length) {
    block.count++;
    if (reading.excess > block.first.excess) {
      block.second = block.first;
      block.first = reading;
    } else if (!block.second || reading.excess > block.second.excess) block.second = reading;
    return;
  }
  if (block) takeBlock(drag, block.count >= 3 && block.second ? block.second : block.first, model);
  drag.block = { since: reading.at, count: 1, first: reading };
}

/** The cable forbids lying farther, not lying nearer: a reading that falls short says little, the less the shorter it falls. */
function takeBlock(drag: DragState, reading: Reading, model: FilterModel): void {
  predict(drag.filter, reading.at, model);
  const short = Math.max(0, expected(drag.filter, reading).excess - reading.excess);
  const noise = BLOCK.sigma ** 2 + (BLOCK.gust * reading.gain) ** 2 + short ** 2;
  drag.before.push([...drag.filter.x]);
  if (drag.before.length > BEFORE) drag.before.shift();
  correct(drag.filter, reading, reading.excess, noise);
  drag.pull = { east: reading.east, north: reading.north };
  const { value, sigma } = movedAlongPull(drag);
  if (value < sigma) drag.quietSince = reading.at;
}
