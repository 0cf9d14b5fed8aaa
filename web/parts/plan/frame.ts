import type { LatLon } from '../../../shared/quantities/estimate.ts';
import type { State } from '../../../shared/state.ts';
import { type Point, plane } from '../../projection.ts';
import type { Size } from './size.ts';

/** Pixels round the drawing kept free for wind and stream arrows; in a small one they may reach into it, or nothing would be left. */
export const RIM = 42;
const SMALL = { size: 220, rim: 24 };

/** What the plan is drawn in: pixels with the origin in the middle. */
export interface Frame extends Size {
  /** Pixels in a metre. */
  scale: number;
  /** Radius in pixels of the part that is meant to be filled; arrows stand outside it. */
  radius: number;
  toPixels(place: LatLon): Point;
}

/** The point that the plan is drawn round: the mark, or the boat where there is none. */
export const centreOf = (state: State): LatLon | undefined => state.watch.mark ?? state.vessel.roller?.value;

/** Metres from the centre that must be seen: the circle, and the whole boat wherever she is. */
export function neededReach(state: State): number {
  const { watch, boat } = state;
  const circle = watch.circle && watch.mark ? watch.circle.radius : 0;
  const stern = watch.distance ? watch.distance.value + boat.length : boat.length;
  const moved = watch.anchor ? watch.anchor.moved + 2 * watch.anchor.sigma : 0;
  const cable = watch.cable ? watch.cable.reach.value + watch.cable.reach.sigma : 0;
  return Math.max(circle, stern, moved, cable, 2.5 * boat.length, 15);
}

/** Zooms out as soon as needed, but in again only when much room is left: the plan must not breathe as the boat sheers. */
export function steadyReach(before: number | undefined, needed: number): number {
  const fits = before !== undefined && needed <= before && needed > before * 0.66;
  return fits ? before : needed * 1.05;
}

export function frameOf(size: Size, centre: LatLon, reach: number): Frame {
  const least = Math.min(size.width, size.height);
  const radius = Math.max(20, least / 2 - (least < SMALL.size ? SMALL.rim : RIM));
  const scale = radius / reach;
  const project = plane(centre);
  return {
    ...size,
    scale,
    radius,
    toPixels: (place) => {
      const { x, y } = project(place);
      return { x: x * scale, y: y * scale };
    },
  };
}
