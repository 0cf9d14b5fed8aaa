import { localPlane } from '../../earth/local.ts';
import { hypot } from '../../quantities/vector.ts';
import type { Settings } from '../../settings.ts';
import type { VesselView } from '../../vessel/view.ts';
import { veered, type WatchState } from '../state.ts';
import { weighBlock } from './evidence.ts';
import { createFilter, forgetReach, loosen, predict, shakeBy, shakeSlow } from './filter.ts';
import {
  BLOCK,
  DEPTH_UNHEARD,
  DIGGING_IN,
  EVIDENCE,
  FIT,
  LEAST_WIND,
  MODEL,
  SUPPOSED,
  UNKNOWN_LOAD_SIGMA,
  WIND_UNHEARD,
} from './model.ts';
import { maySetBack } from './offer.ts';
import { type Reading, readingNow } from './reading.ts';
import { createReceiver, doubtReceiver, endBlock, errorOf, hearFix } from './receiver.ts';
import type { DragState } from './state.ts';
import { suppose } from './supposed.ts';

const WIND_SECONDS = 30;
/** A wind that has not been heard for this long no longer tells the load, s. */
const WIND_FORGOTTEN = 60;

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
    delete drag.suspectSince;
    delete drag.against;
    drag.recent = [];
    doubtReceiver(drag.receiver, vessel.at, vessel.positionDoubt.since);
    drag.of.source = '';
    return undefined;
  }
  feelWind(drag, vessel);
  hearFix(drag.receiver, vessel, EVIDENCE.fast.window);
  supposeCable(drag, state, settings, vessel);
  const raw = readingNow(state, drag, settings, vessel);
  if (!raw || !fits(drag, raw, state.mark!.sigma)) return undefined;
  const error = errorOf(drag.receiver);
  const reading = { ...raw, excess: raw.excess - error.east * raw.east - error.north * raw.north };
  if (drag.of.source !== vessel.antenna?.source) {
    // Another receiver, or the same after bad sky, has another slow error.
    if (drag.of.source !== undefined) shakeSlow(drag.holds, MODEL);
    drag.of.source = vessel.antenna?.source ?? '';
  }
  gather(drag, reading, maySetBack(state.mark!));
  return reading;
}

/**
 * A mark far beyond the cable is a mistake, or another anchorage's: the circle says so. To call that a moved anchor would be a
 * false certainty, so the drag watch begins once she has lain where mark and cable let her.
 */
function fits(drag: DragState, { excess }: Reading, markSigma: number): boolean {
  if (excess < Math.max(FIT.metres, FIT.sigmas * markSigma)) drag.fits = true;
  return drag.fits === true;
}

/** The drag watch of the present mark: begun anew when the mark is another, undefined without one. */
function dragOf(state: WatchState, settings: Settings, vessel: VesselView): DragState | undefined {
  const { mark } = state;
  if (!mark) {
    delete state.drag;
    return undefined;
  }
  const now = state.drag;
  const told = veered(state, settings);
  const out = told ?? now?.supposed?.veered;
  if (!now || now.of.lat !== mark.lat || now.of.lon !== mark.lon || now.of.at !== mark.at) {
    const { lat, lon, at } = mark;
    state.drag = {
      holds: createFilter(vessel.at, mark.sigma, mark.how === 'here', MODEL),
      of: { lat, lon, at, ...(out === undefined ? {} : { veered: out }) },
      receiver: createReceiver(),
      recent: [],
      blocks: 0,
      scatter: { value: 1, square: 1, readings: 0 },
    };
  } else if (now.of.veered !== out) {
    forgetReach(now.holds, told === undefined ? { ...MODEL, reachSigma: SUPPOSED.sigma } : MODEL);
    delete now.block;
    delete now.against;
    now.recent = [];
    if (out === undefined) delete now.of.veered;
    else now.of.veered = out;
  }
  if (told !== undefined) delete state.drag!.supposed;
  return state.drag;
}

function supposeCable(drag: DragState, state: WatchState, settings: Settings, vessel: VesselView): void {
  const { mark } = state;
  const { roller, depth, at } = vessel;
  if (!mark || !roller || veered(state, settings) !== undefined) return;
  drag.supposed ??= { since: at, minutes: [] };
  const { east, north } = localPlane(mark).toLocal(roller.value);
  const metres = depth && (depth.value.surface ?? depth.value.measured);
  suppose(drag.supposed, settings, metres ?? state.circle?.depth ?? DEPTH_UNHEARD, {
    at,
    distance: hypot(east, north),
    wind: hypot(drag.wind?.speed ?? WIND_UNHEARD, LEAST_WIND),
  });
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

/** Keeps the farthest of a block's readings; the second farthest, when there are three or more, so that one stray fix does nothing. */
function gather(drag: DragState, reading: Reading, digsIn: boolean): void {
  const { block } = drag;
  if (block && reading.at - block.since < BLOCK.length) {
    block.count++;
    if (reading.excess > block.first.excess) {
      block.second = block.first;
      block.first = reading;
    } else if (!block.second || reading.excess > block.second.excess) block.second = reading;
    return;
  }
  if (block) {
    const model = drag.wind ? MODEL : { ...MODEL, loadSigma: UNKNOWN_LOAD_SIGMA };
    const { receiver } = drag;
    const before = receiver.thrown.variance;
    if (endBlock(receiver, reading.at - block.since, model))
      shakeBy(drag.holds, receiver.thrown.variance - before);
    predict(drag.holds, reading.at, { ...model, slowSigma: model.slowSigma * Math.sqrt(1 - receiver.seen) });
    weighBlock(drag, block.count >= 3 && block.second ? block.second : block.first, reading.at);
    if (digsIn && reading.at - drag.of.at < DIGGING_IN.seconds) loosen(drag.holds, DIGGING_IN.sigma);
  }
  drag.block = { since: reading.at, count: 1, first: reading };
}
