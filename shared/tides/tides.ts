import type { Finding } from '../alerts/alert.ts';
import type { Answer } from '../events.ts';
import type { VesselView } from '../vessel/view.ts';
import { heightOn, type Reckoned, reckon, STEP } from './reckon.ts';
import { faultOfTide } from './told.ts';
import type { TideTold, TideView } from './view.ts';
import { lowWater, lowWaterInCircle, lowWaterUnseen } from './words.ts';

/** What hawse knows of the tide here. Plain data. */
export interface TidesState {
  told?: TideTold;
  by?: string;
  /** When that was told, UNIX seconds. */
  at?: number;
  reckoned?: Reckoned;
  /** Since when the next low water has been too low, and since when it is not any more. */
  lowSince?: number;
  fineSince?: number;
  low?: true;
}

export const createTides = (): TidesState => ({});

/** Takes a tide as told by `by`, or forgets it (null). Refused with a reason when it cannot be a tide. */
export function tellTide(state: TidesState, told: TideTold | null, by: string, at: number): Answer {
  const fault = told && faultOfTide(told);
  if (fault) return { ok: false, problem: 'refused', why: fault };
  for (const key of Object.keys(state) as (keyof TidesState)[]) delete state[key];
  if (told) Object.assign(state, { told, by, at, reckoned: reckon(told, at) });
  return { ok: true };
}

/** To be called at each whole second: reckons ahead when the reckoned has grown old. */
export function passTides(state: TidesState, at: number): void {
  const { told, reckoned } = state;
  if (!told || at % STEP !== 0) return;
  if (reckoned) state.reckoned = reckon(told, at);
}

/** Height of the tide at a time, m above the datum of what was told; undefined: unknown. */
export const tideAt = (state: TidesState, at: number): number | undefined =>
  state.reckoned && heightOn(state.reckoned.curve, at);

/** Least height of the day to come, as far as it is known, and when; undefined: unknown. */
export function leastAhead(state: TidesState, at: number): { at: number; height: number } | undefined {
  const { reckoned } = state;
  if (!reckoned) return undefined;
  const { from, step, heights } = reckoned.curve;
  let lowestAt: number | undefined;
  let lowest = Number.POSITIVE_INFINITY;
  const look = (then: number, height: number) => {
    if (then < at || then > at + DAY || height >= lowest) return;
    lowestAt = then;
    lowest = height;
  };
  for (let i = 0; i < heights.length; i++) look(from + i * step, heights[i]!);
  for (const turn of reckoned.turns) look(turn.at, turn.height);
  return lowestAt === undefined ? undefined : { at: lowestAt, height: lowest };
}

/** A day ahead, and less than how much of it known is worth a word. */
const DAY = 86_400;
const HALF_DAY = 43_200;
/** Depths older than this are not the present, s. */
const DEPTH_AGE = 10;

/** The tide for people at `vessel.at`; undefined when nobody has told it. `draft` in m. */
export function tideView(state: TidesState, vessel: VesselView, draft: number): TideView | undefined {
  const { told, by, reckoned } = state;
  if (!told || !reckoned) return undefined;
  const { at } = vessel;
  const height = heightOn(reckoned.curve, at);
  const later = heightOn(reckoned.curve, at + STEP);
  const { from, step, heights } = reckoned.curve;
  const end = from + step * (heights.length - 1);
  const least = leastDepth(state, vessel, draft);
  return {
    from: told.turns ? 'table' : 'constituents',
    by: by ?? '',
    ...(told.place === undefined ? {} : { place: told.place }),
    ...(told.source === undefined ? {} : { source: told.source }),
    ...(told.licence === undefined ? {} : { licence: told.licence }),
    ...(height === undefined ? { unknown: reckoned.unknown ?? ENDED } : { height }),
    ...(height === undefined || later === undefined ? {} : { rising: ((later - height) * 3600) / STEP }),
    curve: reckoned.curve,
    turns: reckoned.turns,
    ...(least ? { least } : {}),
    ...(height !== undefined && end - at < HALF_DAY ? { ends: end } : {}),
  };
}

const ENDED = 'What was told of the tide has ended: type in the next high and low waters.';

/** When there is least water where she lies now, in what is known of the next 24 h. */
function leastDepth(state: TidesState, vessel: VesselView, draft: number): TideView['least'] {
  const { at, depth } = vessel;
  const now = tideAt(state, at);
  const surface = depth && depth.age <= DEPTH_AGE ? depth.value.surface : undefined;
  if (now === undefined || surface === undefined) return undefined;
  const least = leastAhead(state, at);
  if (!least) return undefined;
  const then = surface + least.height - now;
  return { at: least.at, depth: then, underKeel: then - draft };
}

/** Under the keel at low water, m, when nobody sets a limit: small craft 0.5 to 1 m (seamanship-physics.md §5 [P]). */
export const UNDER_KEEL = 0.5;
/** A depth must say so for this long, since she swings over a bottom that is not level, s; and fine so long, with so much to spare, m. */
const CONFIRM = 60;
const CLEAR = { after: 300, spare: 0.15 };

/** The shoalest part of her circle at the least tide, as the soundings tell it. */
export interface InTheCircle {
  at: number;
  underKeel: number;
  sigma: number;
  sounded: boolean;
}

/** Sigmas of a shoal in the circle that are allowed for: one in ten is shoaler than that. */
const ALLOWED = 1.3;

/**
 * The next low waters will leave too little under the keel, where she lies or elsewhere in her circle: told hours before. `limit` in m.
 */
export function findLowWater(
  state: TidesState,
  vessel: VesselView,
  draft: number,
  limit = UNDER_KEEL,
  circle?: InTheCircle,
): Finding | undefined {
  const here = leastDepth(state, vessel, draft);
  const { at } = vessel;
  const caution = { kind: 'low-water', priority: 'caution', limit } as const;
  const worst = shoaler(here, circle && circle.at >= at ? circle : undefined);
  if (!worst) {
    // What is not known now changes nothing, unless there is no tide any more.
    return state.told && state.low ? { ...caution, text: lowWaterUnseen(limit) } : undefined;
  }
  judge(state, worst.allowed, limit, at);
  if (!state.low) return undefined;
  const text = worst.circle ? lowWaterInCircle(worst.circle, limit, at) : lowWater(worst.here!, limit, at);
  return { ...caution, text, value: worst.allowed };
}

interface Worst {
  /** Metres under the keel, the uncertainty allowed for. */
  allowed: number;
  here?: NonNullable<TideView['least']>;
  circle?: InTheCircle;
}

function shoaler(here: TideView['least'], circle: InTheCircle | undefined): Worst | undefined {
  const there = circle && circle.underKeel - ALLOWED * circle.sigma;
  if (circle && there !== undefined && (!here || there < here.underKeel)) return { allowed: there, circle };
  return here && { allowed: here.underKeel, here };
}

function judge(state: TidesState, underKeel: number, limit: number, at: number): void {
  if (underKeel < limit) {
    state.lowSince ??= at;
    delete state.fineSince;
    if (at - state.lowSince >= CONFIRM) state.low = true;
    return;
  }
  delete state.lowSince;
  if (underKeel >= limit + CLEAR.spare) state.fineSince ??= at;
  if (state.fineSince !== undefined && at - state.fineSince >= CLEAR.after) delete state.low;
}
