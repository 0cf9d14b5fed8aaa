import { signal } from '@preact/signals';
import type { SectorTold } from '../../../shared/commands.ts';

/** The sector that is being drawn on the plan, and whether a finger on the plan draws at all. */
export const drawing = signal(false);
export const draft = signal<SectorTold | undefined>(undefined);

interface Spot {
  /** From the mark: degrees true and metres. */
  bearing: number;
  distance: number;
}

/** What a finger has swept so far: it begins and ends at bearings, and reaches in to the least distance. */
export function sweep(before: Swept | undefined, spot: Spot): Swept {
  if (!before) return { start: spot.bearing, last: spot.bearing, turned: 0, least: spot.distance };
  const step = ((((spot.bearing - before.last) % 360) + 540) % 360) - 180;
  return {
    start: before.start,
    last: spot.bearing,
    turned: Math.max(-359, Math.min(359, before.turned + step)),
    least: Math.min(before.least, spot.distance),
  };
}

export interface Swept {
  start: number;
  last: number;
  /** Degrees turned since the start, clockwise positive. */
  turned: number;
  least: number;
}

/** The sector of a sweep; undefined while it is no more than a touch. */
export function sectorOf({ start, turned, least }: Swept): SectorTold | undefined {
  if (Math.abs(turned) < 3) return undefined;
  const round = (d: number) => Math.round((d % 360) + 360) % 360;
  const [from, to] = turned > 0 ? [start, start + turned] : [start + turned, start];
  return { from: round(from), to: round(to), beyond: Math.round(least) };
}
