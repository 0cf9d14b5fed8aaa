import type { Boat, Hull } from '../../shared/settings.ts';

/**
 * What a hull is to wind and water. Places `x` are metres ahead of midships, areas m² with their drag coefficient in them
 * (C_d·A) where it says so.
 */
export interface HullForm {
  mass: number;
  /** Water that is carried along, as a part of the mass, and of the moment of inertia. */
  addedAhead: number;
  addedAthwart: number;
  addedYaw: number;
  /** Radius of gyration in yaw, m. */
  gyration: number;
  /** C_d·A in the wind from ahead and from abeam. */
  windAhead: number;
  windAthwart: number;
  /** Where the side force of the wind acts: `middle` with the wind abeam, `ahead` metres further forward with the wind right ahead. */
  windCentre: { middle: number; ahead: number };
  /** C_d·A in the water lengthwise. */
  waterAhead: number;
  /** The underwater profile in parts, with the drag of flow across it (C_d·A). */
  profile: { x: number; area: number }[];
  /** Keels and rudders: plan area and slope of the lift per radian beyond the drag that `profile` holds. */
  foils: { x: number; area: number; lift: number }[];
  /** Resistance to slow movement: the time in which it would die away, s. */
  calmTime: number;
}

interface Proportions {
  /** kg per m² of length × beam. */
  displacement: number;
  gyration: number;
  windAhead: number;
  windAthwart: number;
  windCentre: { middle: number; ahead: number };
  waterAhead: number;
  bodyDraft: number;
  keel: { x: number; area: number; lift: number; drag: number };
  rudder: { x: number; area: number; lift: number; drag: number };
}

/**
 * Common practice of small-craft design [P]: areas as parts of length², centres as parts of the length ahead of midships. The
 * wind's centre wanders forward as she comes head to wind, as Hughes's rule for ships has it (0.291 of the length from the bow
 * right ahead, 0.498 abeam [M]); mast and rolled headsail carry it further. They are tuned to what §10 of the reference says of
 * yawing and bare-masted drift, and to nothing else.
 */
const PROPORTIONS: Record<Hull, Proportions> = {
  monohull: {
    displacement: 187,
    gyration: 0.25,
    windAhead: 0.08,
    windAthwart: 0.16,
    windCentre: { middle: 0.03, ahead: 0.25 },
    waterAhead: 0.0027,
    bodyDraft: 0.042,
    keel: { x: 0.02, area: 0.018, lift: 1.6, drag: 1.1 },
    rudder: { x: -0.42, area: 0.0065, lift: 2.6, drag: 1.1 },
  },
  catamaran: {
    displacement: 108,
    gyration: 0.3,
    windAhead: 0.16,
    windAthwart: 0.26,
    windCentre: { middle: 0, ahead: 0.18 },
    waterAhead: 0.0045,
    bodyDraft: 0.075,
    keel: { x: -0.02, area: 0.02, lift: 0.9, drag: 0.8 },
    rudder: { x: -0.42, area: 0.008, lift: 1.8, drag: 0.9 },
  },
  trimaran: {
    displacement: 62,
    gyration: 0.3,
    windAhead: 0.12,
    windAthwart: 0.2,
    windCentre: { middle: 0.02, ahead: 0.16 },
    waterAhead: 0.0035,
    bodyDraft: 0.05,
    keel: { x: 0, area: 0.012, lift: 1.6, drag: 1 },
    rudder: { x: -0.42, area: 0.006, lift: 2.2, drag: 1 },
  },
};

/** Strips of the body under water, as parts of the length ahead of midships, and the drag of flow across a round bilge [P]. */
const STRIPS = [-0.36, -0.18, 0, 0.18, 0.36];
const BILGE_DRAG = 0.8;

/** A likely hull of this boat's kind and size, but for what is told. Not made from `windage` of the settings: what the crew believes may be wrong. */
export function hullOf(boat: Boat, told: Partial<HullForm> = {}): HullForm {
  const { length } = boat;
  const parts = PROPORTIONS[boat.hull];
  const square = length * length;
  const foils = [parts.keel, parts.rudder].map(({ x, area, lift, drag }) => ({
    x: x * length,
    area: area * square,
    lift,
    drag,
  }));
  const strip = (BILGE_DRAG * parts.bodyDraft * square) / STRIPS.length;
  return {
    mass: boat.displacement ?? parts.displacement * length * boat.beam,
    addedAhead: 0.05,
    addedAthwart: 0.6,
    addedYaw: 0.3,
    gyration: parts.gyration * length,
    windAhead: parts.windAhead * square,
    windAthwart: parts.windAthwart * square,
    windCentre: { middle: parts.windCentre.middle * length, ahead: parts.windCentre.ahead * length },
    waterAhead: parts.waterAhead * square,
    profile: [
      ...STRIPS.map((x) => ({ x: x * length, area: strip })),
      ...foils.map(({ x, area, drag }) => ({ x, area: area * drag })),
    ],
    foils: foils.map(({ x, area, lift }) => ({ x, area, lift })),
    calmTime: 600,
    ...told,
  };
}
