import type { ProfilePoint } from '../../../shared/cable/profile.ts';
import { radians } from '../../../shared/quantities/angle.ts';
import type { Estimate } from '../../../shared/quantities/estimate.ts';
import type { Boat } from '../../../shared/settings.ts';
import type { Size } from '../plan/size.ts';

/** Where things of a side view come on the screen: pixels, one scale both ways. Pure. */

/** What is drawn: plain figures, whoever worked them out. Metres, degrees. */
export interface Scene {
  boat: Pick<Boat, 'hull' | 'length' | 'draft' | 'roller'>;
  /** From the surface at the anchor. */
  depth: { high: number; now: number; low: number };
  /** Of the bottom, rising from the anchor towards the boat positive. */
  slope: number;
  /** The cable from roller to anchor. */
  cable: { high: readonly ProfilePoint[]; low: readonly ProfilePoint[] };
  /** Where wind and stream should hold the roller, metres out: a soft band. */
  holds?: Estimate;
  /** Free water round the anchor. */
  room?: number | undefined;
}

/** Pixels round the drawing for labels: sky with wind and levels, ground with measures, anchor on the left, air on the right. */
const RIM = { top: 46, bottom: 46, left: 22, right: 10 };
/** A room this much wider than she needs is not drawn: it would only make her small. */
const ROOM_DRAWN = 1.25;
/** Height of a coach roof above the roller, m. */
const ROOF = 1;

export interface View extends Size {
  /** Pixels in a metre. */
  scale: number;
  x(out: number): number;
  y(up: number): number;
  /** Height of the bottom above the anchor's, m. */
  bottom(out: number): number;
  /** Pixels from the top: below everything that is drawn to scale. */
  ground: number;
}

export const rollerOut = (cable: readonly ProfilePoint[]): number => cable[0]?.out ?? 0;

/** Metres from the anchor that must be seen. */
export function neededSpan({ boat, cable, holds, room }: Scene): number {
  const stern = Math.max(rollerOut(cable.high), rollerOut(cable.low), holds?.value ?? 0) + boat.length;
  return room !== undefined && room <= stern * ROOM_DRAWN ? Math.max(stern, room) : stern;
}

/** `span` is how many metres from the anchor are in view. */
export function viewOf(scene: Scene, span: number, { width, height }: Size): View {
  const slope = Math.tan(radians(scene.slope));
  const lowest = Math.min(0, slope * span);
  const highest = Math.max(scene.depth.high + scene.boat.roller.height + ROOF, slope * span);
  const scale = Math.min(
    Math.max(20, width - RIM.left - RIM.right) / span,
    Math.max(20, height - RIM.top - RIM.bottom) / (highest - lowest),
  );
  const ground = height - RIM.bottom;
  return {
    width,
    height,
    scale,
    ground,
    x: (out) => RIM.left + out * scale,
    y: (up) => ground - (up - lowest) * scale,
    bottom: (out) => out * slope,
  };
}

/** Centres of labels for levels, lowest first, moved up until each has its room; pixels from the top. */
export function stacked(levels: readonly number[], apart: number): number[] {
  let free = Number.POSITIVE_INFINITY;
  return levels.map((y) => {
    const place = Math.min(y, free);
    free = place - apart;
    return place;
  });
}

/** How much of the line lies on the bottom before it lifts off, measured from the anchor, m. */
export function lyingOut(cable: readonly ProfilePoint[], bottom: (out: number) => number): number {
  const lies = cable.filter(({ out, up }) => Math.abs(up - bottom(out)) < 0.005);
  return Math.max(0, ...lies.map(({ out }) => out));
}
