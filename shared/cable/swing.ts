/** Radii of the circles that parts of the boat can sweep about the anchor, m. */
export interface Circles {
  roller: number;
  stern: number;
  antenna: number;
}

/**
 * Circles about the anchor when the roller lies at `reach` (m): stern and antenna beyond it in line with the cable. The largest
 * a cable allows, whatever the wind, is with the reach of a taut one, √(L²−h²). `length` over all stands for roller to stern.
 */
export function circles(
  reach: number,
  boat: { length: number; antenna?: { aftOfRoller: number; toStarboard: number } },
): Circles {
  const { aftOfRoller = 0, toStarboard = 0 } = boat.antenna ?? {};
  return {
    roller: reach,
    stern: reach + boat.length,
    antenna: Math.hypot(reach + aftOfRoller, toStarboard),
  };
}

/** Room left between two circles, m; negative: they overlap. `apart` is the distance between the anchors. */
export const roomBetween = (apart: number, ours: number, theirs: number): number => apart - ours - theirs;
