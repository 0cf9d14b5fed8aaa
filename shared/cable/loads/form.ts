import type { Estimate } from '../../quantities/estimate.ts';
import type { Boat } from '../../settings.ts';
import { SEA_WATER } from '../nature.ts';

/** What of a boat meets wind and stream. */
export type Form = Pick<Boat, 'hull' | 'length' | 'beam' | 'draft' | 'windage' | 'displacement'>;

interface Shape {
  /** Drag area C_d·A from ahead per m² of length × beam. Mono- and catamaran: a third of the area that ABYC H-40's working loads
   * imply for 30 to 50 ft (0.24 to 0.27), since those loads are about three times steady drag (waterwayguide.com); trimarans, whose
   * beam is mostly net: common practice. */
  aheadPerArea: number;
  /** The same from abeam, as a multiple of that from ahead (from drawings of a few boats; common practice). */
  abeamTimes: number;
  /** kg per cubic metre of length over all cubed (common practice: a length-displacement ratio about 200). */
  massPerCube: number;
  hulls: number;
  /** Breadth at the waterline, all hulls together, as a share of beam and of length. */
  breadth: { ofBeam: number; ofLength: number };
}

const SHAPES: Record<Boat['hull'], Shape> = {
  monohull: {
    aheadPerArea: 0.25,
    abeamTimes: 2.5,
    massPerCube: 5.2,
    hulls: 1,
    breadth: { ofBeam: 0.85, ofLength: 0 },
  },
  catamaran: {
    aheadPerArea: 0.25,
    abeamTimes: 1.7,
    massPerCube: 5.5,
    hulls: 2,
    breadth: { ofBeam: 0, ofLength: 0.2 },
  },
  trimaran: {
    aheadPerArea: 0.15,
    abeamTimes: 1.7,
    massPerCube: 3.3,
    hulls: 1,
    breadth: { ofBeam: 0, ofLength: 0.13 },
  },
};

/** How wrong these may be (one sigma, relative): estimated from hull, length and beam; or told by the user. */
const ESTIMATED = 0.35;
const TOLD = 0.15;
/** Waterline over length over all (common practice). */
const WATERLINE = 0.92;

/** C_d·A in m² against wind from ahead and from abeam: as told for ahead, else from hull, length and beam. */
export function windage(form: Form): { ahead: Estimate; abeam: Estimate } {
  const shape = SHAPES[form.hull];
  const told = form.windage.area;
  const area = told ?? shape.aheadPerArea * form.length * form.beam;
  const abeam = area * shape.abeamTimes;
  return {
    ahead: { value: area, sigma: area * (told === undefined ? ESTIMATED : TOLD) },
    abeam: { value: abeam, sigma: abeam * ESTIMATED },
  };
}

/** Mass in kg: as told, else from hull and length. */
export function displacement(form: Form): Estimate {
  if (form.displacement !== undefined) {
    return { value: form.displacement, sigma: form.displacement * 0.1 };
  }
  const value = SHAPES[form.hull].massPerCube * form.length ** 3;
  return { value, sigma: value * 0.3 };
}

/** The hull under water, as UFC 4-159-03 wants it: metres, m³, m². */
export interface Underwater {
  waterline: number;
  /** Breadth of all hulls together. */
  breadth: number;
  draft: number;
  volume: number;
  /** Wetted surface 1.7·T·L + volume/T (UFC 4-159-03 §4-5). */
  wetted: number;
}

export function underwater(form: Form): Underwater {
  const { hulls, breadth } = SHAPES[form.hull];
  const waterline = WATERLINE * form.length;
  const volume = displacement(form).value / SEA_WATER;
  return {
    waterline,
    breadth: breadth.ofBeam * form.beam + breadth.ofLength * form.length,
    draft: form.draft,
    volume,
    wetted: hulls * 1.7 * form.draft * waterline + volume / form.draft,
  };
}
