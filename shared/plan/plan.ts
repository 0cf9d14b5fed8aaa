import { type ProfilePoint, profile } from '../cable/profile.ts';
import { cableItems } from './cable.ts';
import { forces } from './forces.ts';
import type { PlanItem } from './item.ts';
import { type PlanRequest, type Task, toTask } from './request.ts';
import { hangOf, rodeOf } from './rode.ts';
import { swing } from './swing.ts';
import { lengthToVeer } from './veer.ts';

export type { PlanItem } from './item.ts';
export type { PlanRequest } from './request.ts';

/** Figures of a plan. An absent one could not be told from the request. */
export interface PlanItems {
  windLoad: PlanItem;
  streamLoad: PlanItem;
  /** Horizontal pull to prepare for. */
  load: PlanItem;
  /** ABYC H-40, beside ours as a check. */
  tableLoad?: PlanItem;
  workingLoadShare?: PlanItem;
  veer: PlanItem;
  scope: PlanItem;
  angleAtAnchor: PlanItem;
  onBottom: PlanItem;
  /** Roller from anchor under the load at high and low water. */
  reachHigh: PlanItem;
  reachLow: PlanItem;
  /** Largest circles: taut cable at low water. */
  circleRoller: PlanItem;
  circleStern: PlanItem;
  circleAntenna: PlanItem;
  roomLeft?: PlanItem;
  longestForRoom?: PlanItem;
  underKeelLow: PlanItem;
  surgePeak?: PlanItem;
}

export type Plan =
  | {
      state: 'plan';
      items: PlanItems;
      /** The cable under the load, roller to anchor, at high and low water, for drawing. */
      profile: { high: ProfilePoint[]; low: ProfilePoint[] };
      /** Every caution of the items, what concerns her safety first. */
      cautions: string[];
    }
  | { state: 'refused'; faults: string[] };

/**
 * Scope and swing of an anchorage before the anchor is let go: how much to veer so that the anchor is pulled along the bottom at
 * high water in the gusts of the wind to prepare for, and the room and water that this takes at low water. Every figure carries
 * formula, source and caution; a request with faults is refused in words. Under a millisecond.
 */
export function plan(request: PlanRequest): Plan {
  const task = toTask(request);
  if ('faults' in task) return { state: 'refused', faults: task.faults };
  const { load, items: pull } = forces(task);
  const needed = lengthToVeer(task, load.value);
  const veer =
    request.veer === undefined
      ? needed
      : { length: request.veer, enough: request.veer >= needed.length && needed.enough };
  if (veer.length <= task.height.high) {
    return { state: 'refused', faults: [tooShort(task, veer.length)] };
  }
  const high = rodeOf(task, veer.length, task.height.high);
  const low = rodeOf(task, veer.length, task.height.low);
  const shapeHigh = hangOf(high, load.value);
  const cable = cableItems(task, veer, shapeHigh, load.value);
  const items: PlanItems = {
    ...pull,
    ...cable.items,
    ...swing(task, veer.length, load.value).items,
  };
  return {
    state: 'plan',
    items,
    profile: { high: profile(high, shapeHigh), low: profile(low, hangOf(low, load.value)) },
    cautions: cautionsOf(items, cable.warning),
  };
}

const tooShort = ({ height }: Task, length: number): string =>
  `${length} m of cable do not reach the bottom at high water: the roller is ${height.high.toFixed(1)} m above it.`;

/** In the order in which they matter to the crew. */
const GRAVITY_OF_CAUTIONS = [
  'underKeelLow',
  'roomLeft',
  'veer',
  'angleAtAnchor',
  'workingLoadShare',
  'windLoad',
  'tableLoad',
] as const satisfies readonly (keyof PlanItems)[];

const cautionsOf = (items: PlanItems, warning: string | undefined): string[] => [
  ...GRAVITY_OF_CAUTIONS.flatMap((key) => items[key]?.caution ?? []),
  ...(warning === undefined ? [] : [warning]),
];
