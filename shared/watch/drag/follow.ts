import { metresPerDegree, wrapLongitude } from '../../earth/local.ts';
import { towards } from '../../quantities/vector.ts';
import type { Settings } from '../../settings.ts';
import type { VesselView } from '../../vessel/view.ts';
import { veered, type WatchState } from '../state.ts';
import { createBank, filtersOf, judge } from './bank.ts';
import { createFilter, type FilterModel, forgetReach, shakeSlow, throwSlow } from './filter.ts';
import { BLOCK, MODEL, UNKNOWN_LOAD_SIGMA } from './model.ts';
import { type Reading, readingNow } from './reading.ts';
import type { DragState } from './state.ts';

const WIND_SECONDS = 30;
/** A wind that has not been heard for this long no longer tells the load, s. */
const WIND_FORGOTTEN = 60;
/** Fixes further apart than this (s) are not joined by their velocity. */
const JOINED = 5;

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
    delete drag.last;
    drag.of.source = '';
    return undefined;
  }
  feelWind(drag, vessel);
  const reading = readingNow(state, settings, vessel, drag.wind?.speed);
  if (!reading) return undefined;
  const model = drag.wind ? MODEL : { ...MODEL, loadSigma: UNKNOWN_LOAD_SIGMA };
  if (drag.of.source !== vessel.antenna?.source) {
    // Another receiver, or the same after bad sky, has another slow error.
    if (drag.of.source !== undefined) for (const filter of filtersOf(drag.bank)) shakeSlow(filter, model);
    drag.of.source = vessel.antenna?.source ?? '';
  }
  gather(drag, reading, thrownSince(drag, vessel), model);
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
    const holds = createFilter(vessel.at, mark.sigma, mark.how === 'here', MODEL);
    const { lat, lon, at } = mark;
    state.drag = {
      bank: createBank(holds),
      of: { lat, lon, at, ...(out === undefined ? {} : { veered: out }) },
    };
  } else if (now.of.veered !== out) {
    for (const filter of filtersOf(now.bank)) forgetReach(filter, MODEL);
    delete now.block;
    if (out === undefined) delete now.of.veered;
    else now.of.veered = out;
  }
  return state.drag;
}

function feelWind(drag: DragState, vessel: VesselView): void {
  const speed = vessel.windGround?.value.speed ?? vessel.windApparent?.value.speed;
  if (speed === undefined) {
    if (drag.wind && vessel.at - drag.wind.at > WIND_FORGOTTEN) delete drag.wind;
    return;
  }
  const dt = drag.wind ? vessel.at - drag.wind.at : Number.POSITIVE_INFINITY;
  const part = 1 - Math.exp(-dt / WIND_SECONDS);
  drag.wind = {
    speed: drag.wind ? drag.wind.speed + part * (speed - drag.wind.speed) : speed,
    at: vessel.at,
  };
}

/** How far the antenna has moved since the last fix beyond what the receiver's own velocity says; zero when that is not known. */
function thrownSince(drag: DragState, { antenna, sog, cog }: VesselView): { east: number; north: number } {
  const { last } = drag;
  const none = { east: 0, north: 0 };
  if (!antenna || !sog || (!cog && sog.value > 0.1)) {
    delete drag.last;
    return none;
  }
  const velocity = cog ? towards(sog.value, cog.value) : none;
  const { lat, lon } = antenna.value;
  drag.last = { at: antenna.at, lat, lon, ...velocity };
  if (!last || antenna.at - last.at > JOINED) return none;
  const metres = metresPerDegree(lat);
  const dt = antenna.at - last.at;
  return {
    east: wrapLongitude(lon - last.lon) * metres.lon - ((velocity.east + last.east) / 2) * dt,
    north: (lat - last.lat) * metres.lat - ((velocity.north + last.north) / 2) * dt,
  };
}

/** Keeps the farthest of a block's readings; the second farthest, when there are three or more, so that one stray fix does nothing. */
function gather(
  drag: DragState,
  reading: Reading,
  thrown: { east: number; north: number },
  model: FilterModel,
): void {
  const { block } = drag;
  if (block && reading.at - block.since < BLOCK.length) {
    block.count++;
    block.thrown.east += thrown.east;
    block.thrown.north += thrown.north;
    if (reading.excess > block.first.excess) {
      block.second = block.first;
      block.first = reading;
    } else if (!block.second || reading.excess > block.second.excess) block.second = reading;
    return;
  }
  if (block) {
    const { east, north } = block.thrown;
    const size = Math.hypot(east, north);
    if (size > BLOCK.thrown)
      for (const filter of filtersOf(drag.bank)) throwSlow(filter, east, north, 0.3 * size);
    const best = block.count >= 3 && block.second ? block.second : block.first;
    judge(drag.bank, best, model);
    drag.pull = { east: best.east, north: best.north };
  }
  drag.block = { since: reading.at, count: 1, first: reading, thrown: { ...thrown } };
}
