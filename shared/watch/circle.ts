import type { Settings } from '../settings.ts';
import type { VesselView } from '../vessel/view.ts';
import { CIRCLE } from './limits.ts';
import { veered, type WatchState } from './state.ts';
import { circleComputed, circleTold } from './words.ts';

export interface CircleState {
  radius: number;
  computed: boolean;
  explanation: string;
  /** What it was made from. It is made anew when one of these changes, and when the mark is set (see `setMark`). */
  from: { radius?: number; veered?: number; markSigma: number; margin: number; rollerHeight: number };
  /** Depth at the roller and accuracy of the position at that time, as soon as they are known. */
  depth?: number;
  positionSigma?: number;
  /** Until then it waits for what is not known yet; absent: it stands. */
  learnUntil?: number;
}

/**
 * Keeps the circle in step with mark, cable and settings. It is computed when one of these changes, from the depth and accuracy
 * of that moment, or of the first minute when they come later; then it stands, and does not breathe with tide and satellites.
 * So on a falling tide a computed circle is a little small: the reach grows by at most L − √(L²−h²), 1.7 m for 30 m of cable at a
 * scope of 3, which is what the margin is for. Without a told radius and without veered length there is no circle.
 */
export function settleCircle(state: WatchState, settings: Settings, vessel: VesselView, at: number): void {
  const { mark } = state;
  if (!mark) return;
  const told = state.told.circleRadius;
  const radius = told === undefined ? settings.circle.radius : (told ?? undefined);
  const out = veered(state, settings);
  const { margin } = settings.circle;
  const rollerHeight = settings.boat.roller.height;
  const now = state.circle;
  const same =
    now !== undefined &&
    now.from.radius === radius &&
    now.from.veered === out &&
    now.from.margin === margin &&
    now.from.rollerHeight === rollerHeight;
  if (same && (now.learnUntil === undefined || !learns(now, vessel, at))) return;
  if (radius === undefined && out === undefined) {
    delete state.circle;
    return;
  }
  const circle: CircleState = same
    ? now
    : {
        radius: 0,
        computed: radius === undefined,
        explanation: '',
        from: {
          ...(radius === undefined ? {} : { radius }),
          ...(out === undefined ? {} : { veered: out }),
          markSigma: mark.sigma,
          margin,
          rollerHeight,
        },
      };
  if (!same) {
    state.circle = circle;
    if (circle.computed) {
      circle.learnUntil = at + CIRCLE.learn;
      learns(circle, vessel, at);
    }
  }
  size(circle);
}

/** Takes in depth (below the transducer, when that of the surface is unknown: the circle gets larger, not smaller) and
 * accuracy when they become known in time; true when there was something new. */
function learns(circle: CircleState, vessel: VesselView, at: number): boolean {
  if (at > circle.learnUntil!) {
    delete circle.learnUntil;
    return false;
  }
  let learnt = false;
  const depth = vessel.depth && (vessel.depth.value.surface ?? vessel.depth.value.measured);
  if (circle.depth === undefined && depth !== undefined) {
    circle.depth = depth;
    learnt = true;
  }
  if (circle.positionSigma === undefined && vessel.positionSigma !== undefined) {
    circle.positionSigma = vessel.positionSigma;
    learnt = true;
  }
  if (circle.depth !== undefined && circle.positionSigma !== undefined) delete circle.learnUntil;
  return learnt;
}

/**
 * Radius and its explanation. Reach of a taut cable: √(L²−h²), h from roller to bottom (seamanship-physics.md §1.3, §9);
 * without a depth, or with more depth than cable, L itself, which no roller can exceed.
 */
function size(circle: CircleState): void {
  const { radius, veered: cable, markSigma, margin, rollerHeight } = circle.from;
  if (radius !== undefined) {
    circle.radius = radius;
    circle.explanation = circleTold(radius);
    return;
  }
  const L = cable!;
  const h = circle.depth === undefined ? undefined : circle.depth + rollerHeight;
  const reach = h === undefined || h >= L ? L : Math.sqrt(L * L - h * h);
  const mark = CIRCLE.sigmas * markSigma;
  const position = CIRCLE.sigmas * (circle.positionSigma ?? CIRCLE.positionSigma);
  circle.radius = reach + mark + position + margin;
  circle.explanation = circleComputed({ radius: circle.radius, cable: L, h, reach, mark, position, margin });
}
