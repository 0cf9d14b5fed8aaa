import { type Circles, circles } from '../cable/swing.ts';
import { radians } from '../quantities/angle.ts';
import { type PlanItem, SOURCES } from './item.ts';
import type { Task } from './request.ts';
import { hangOf, rodeOf } from './rode.ts';

/** Water under the keel below which small craft worry, m (common practice: 0.5 to 1 m). */
const LEAST_UNDER_KEEL = 0.5;

export interface Swing {
  /** Largest circles, taut cable at low water. */
  circles: Circles;
  items: Record<
    'reachHigh' | 'reachLow' | 'circleRoller' | 'circleStern' | 'circleAntenna' | 'underKeelLow',
    PlanItem
  > &
    Partial<Record<'roomLeft' | 'longestForRoom', PlanItem>>;
}

/** How far she swings with a length of cable, and what water and room that leaves. */
export function swing(task: Task, length: number, load: number): Swing {
  const { request, height, depthLow, slope } = task;
  const { boat, room } = request;
  const taut = Math.sqrt(Math.max(0, (length - height.low) * (length + height.low)));
  const ring = circles(taut, boat);
  const rising = ring.stern * Math.tan(radians(Math.abs(slope)));
  const underKeel = depthLow - boat.draft - rising;
  const metres = (value: number, source: { formula: string; source: string }): PlanItem => ({
    value,
    unit: 'm',
    ...source,
  });
  const items: Swing['items'] = {
    reachHigh: metres(reachAt(task, length, height.high, load), SOURCES.reach),
    reachLow: metres(reachAt(task, length, height.low, load), SOURCES.reach),
    circleRoller: metres(ring.roller, SOURCES.circle),
    circleStern: metres(ring.stern, SOURCES.circle),
    circleAntenna: metres(ring.antenna, SOURCES.circle),
    underKeelLow: metres(underKeel, SOURCES.underKeelLow),
  };
  if (underKeel <= 0)
    items.underKeelLow.caution = 'She takes the ground at low water somewhere in her circle.';
  else if (underKeel < LEAST_UNDER_KEEL) {
    items.underKeelLow.caution =
      'Less than half a metre: a swell or a wrong tide table puts her on the bottom.';
  }
  if (room !== undefined) {
    items.roomLeft = metres(room - ring.stern, SOURCES.roomLeft);
    if (room < ring.stern) items.roomLeft.caution = 'Her circle is larger than the room.';
    const free = room - boat.length;
    if (free > 0) items.longestForRoom = metres(Math.hypot(free, height.low), SOURCES.longestForRoom);
  }
  return { circles: ring, items };
}

function reachAt(task: Task, length: number, height: number, load: number): number {
  const shape = hangOf(rodeOf(task, length, height), load);
  return shape.state === 'infeasible' ? 0 : shape.reach;
}
