import type { Observation } from '../sentences/observation.ts';
import type { Boat } from '../settings.ts';
import type { VesselView } from './view.ts';

export type DepthSaid = Extract<Observation, { kind: 'depth' }>;
type Depth = NonNullable<VesselView['depth']>['value'];

/**
 * Depth below the surface and below the keel, metres, as far as the reference is known. What the crew has measured and written in
 * the configuration wins over the offset that someone once set in the instrument. DPT's offset is to the waterline when positive,
 * to the keel when negative, and tells nothing when zero (gpsd NMEA.adoc; Furuno and Simrad manuals).
 */
export function depthOf({ depth, reference, offset }: DepthSaid, { draft, sounder }: Boat): Depth {
  const fromSurface = (surface: number): Depth => ({ measured: depth, surface, keel: surface - draft });
  const fromKeel = (keel: number): Depth => ({ measured: depth, surface: keel + draft, keel });
  if (reference === 'surface') return fromSurface(depth);
  if (reference === 'keel') return fromKeel(depth);
  if (sounder.belowWaterline !== undefined) return fromSurface(depth + sounder.belowWaterline);
  if (offset !== undefined && offset > 0) return fromSurface(depth + offset);
  if (offset !== undefined && offset < 0) return fromKeel(depth + offset);
  return { measured: depth };
}

/** A sounder that has lost the bottom sends 0: common practice of the makers, no source. Water ends before the transducer does. */
export const isSounded = ({ depth }: DepthSaid): boolean => depth > 0;
