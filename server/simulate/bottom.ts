/** A point on the bottom, metres east and north of where the anchor was let go. */
export interface Spot {
  east: number;
  north: number;
}

/** Chain on sand or mud: force that moves it over the bottom as a part of its weight [P], and N per m/s beyond that. */
const FRICTION = 0.7;
const VISCOSITY = 600;

/**
 * The cable on the bottom, as two links: from the anchor to its bight, and from the bight towards the boat. The bight lies still
 * until the pull overcomes its friction, so that in light airs a boat lies to her bight and not to her anchor.
 */
export interface Bight extends Spot {
  /** Cable between anchor and bight. */
  length: number;
}

/** Least and greatest part of the cable that need not hang which lies between anchor and bight. */
const LEAST = 0.6;
const MOST = 0.95;

/**
 * Length of cable between anchor and bight when `veered` metres are out and the roller is `height` above the bottom: the cable
 * comes in at the boat's end, so the bight stays what it is for as long as it can.
 */
export const bightLength = (now: number, veered: number, height: number): number => {
  const lies = Math.max(0, veered - height);
  return Math.min(MOST * lies, Math.max(LEAST * lies, now));
};

/**
 * Moves the bight under a pull (N) towards a direction given by its unit vector. The cable to the anchor pulls back once it is
 * taut. Returns whether it is.
 */
export function dragBight(
  bight: Bight,
  anchor: Spot,
  pull: { east: number; north: number },
  onBottom: boolean,
  weight: number,
  dt: number,
): boolean {
  let { east, north } = pull;
  const back = { east: anchor.east - bight.east, north: anchor.north - bight.north };
  const away = Math.hypot(back.east, back.north);
  if (away > bight.length * (1 - 1e-6) && away > 0) {
    const held = -(east * back.east + north * back.north) / away;
    if (held > 0) {
      east += (held * back.east) / away;
      north += (held * back.north) / away;
    }
  }
  const force = Math.hypot(east, north);
  const friction = onBottom ? FRICTION * weight * bight.length * 0.5 : 0;
  if (force > friction) {
    const moved = (((force - friction) / VISCOSITY) * dt) / force;
    bight.east += east * moved;
    bight.north += north * moved;
  }
  return keepWithin(bight, anchor);
}

/** Brings the bight within its length of cable from the anchor. Returns whether that cable is taut. */
export function keepWithin(bight: Bight, anchor: Spot): boolean {
  const east = bight.east - anchor.east;
  const north = bight.north - anchor.north;
  const away = Math.hypot(east, north);
  if (away < bight.length * (1 - 1e-6)) return false;
  if (away > bight.length) {
    bight.east = anchor.east + (east * bight.length) / away;
    bight.north = anchor.north + (north * bight.length) / away;
  }
  return true;
}

/** What the friction of `metres` of cable on the bottom takes off the pull before it reaches the anchor, N. */
export const bottomHold = (metres: number, weight: number): number => FRICTION * weight * metres;
