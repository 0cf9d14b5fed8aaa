/** What the engine is told about boat, cable and limits: plain data in SI units, made from hawse.yaml or an anchorage file. */

export type Hull = 'monohull' | 'catamaran' | 'trimaran';

export interface Boat {
  name: string;
  /** Number of our own AIS transponder, when there is one: it is no neighbour. */
  mmsi?: number;
  hull: Hull;
  /** Length over all, beam and draft, metres. */
  length: number;
  beam: number;
  draft: number;
  /** Bow roller: height above the waterline, metres. */
  roller: { height: number };
  /** GNSS antenna from the roller: metres aft, metres to starboard of it. */
  antenna: { aftOfRoller: number; toStarboard: number };
  /** Depth sounder's transducer: metres below the waterline (undefined: not told), metres aft of the roller. */
  sounder: { belowWaterline?: number; aftOfRoller: number };
  /** Effective drag area C_d·A against the wind from ahead, m²; undefined: estimated from hull, length and beam. */
  windage: { area?: number };
  /** kg; undefined: estimated. */
  displacement?: number;
}

export interface ChainMark {
  at: number;
  what: string;
}

export interface Cable {
  /** Metres out beyond the roller when let go, unless told otherwise. */
  veered?: number;
  /** Mass in air, kg/m. */
  massPerMetre: number;
  /** Diameter as sold, mm, when chosen by size. */
  size?: number;
  /** Working load of the chain, N, when known. */
  workingLoad?: number;
  /** Name under which a chain counter tells the metres out in XDR sentences. */
  counter?: string;
  /** What is painted or tied on the chain, from the anchor inwards: metres from the anchor, and what is seen there. */
  marks?: ChainMark[];
  /** Chain and rope on board, metres. */
  length?: number;
  rope?: number;
}

/** Limits of the watch; an absent limit is not watched, except where a default is named. */
export interface Limits {
  /** Alarm when depth below the surface is less than / more than this, metres. */
  depthBelow?: number;
  depthAbove?: number;
  /** Caution when the next low waters leave less than this under the keel, metres; 0.5 when left out. */
  underKeelBelow?: number;
  /** Warning when the wind over ground (or apparent, when only that is known) exceeds this, m/s. */
  windAbove?: number;
  /** Warning when the ground wind has shifted by more than this since the mark, degrees. */
  windShift?: number;
}

/** How this crew weighs; the monitor has defaults for all of it. */
export interface Weighing {
  /** Speed through the water on the way to the anchor, m/s. */
  approachSpeed?: number;
  /** So many metres of cable above the height of the roller left: slow down. */
  slowWithin?: number;
  /** Metres a second that the windlass heaves. */
  windlassRate?: number;
}

export interface Settings {
  boat: Boat;
  cable: Cable;
  weigh?: Weighing;
  limits: Limits;
  circle: {
    /** Metres round the mark, roller inside; undefined: computed. */
    radius?: number;
    /** Added to the computed reach, metres, beside the uncertainty of mark and position. */
    margin: number;
  };
  /** Compass deviation by magnetic heading, degrees east positive, as [heading, deviation] pairs; empty: none known. */
  deviation: readonly (readonly [number, number])[];
  /** `id` of inputs that may send sentences without checksum. */
  checksumOptional: readonly string[];
  /** Emit a `lie` event every so many seconds; undefined: never. */
  lieEvery?: number;
}
