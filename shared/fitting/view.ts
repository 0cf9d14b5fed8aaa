import type { Estimate } from '../quantities/estimate.ts';

/**
 * Figures that people gave, beside what the data say of them. `offer` stands only where the data disagree by more than they are
 * unsure; it is in SI units and the file's own sense. `unknown` says what is missing for an estimate.
 */
export interface Fitted {
  /** What holds now. */
  told?: number;
  estimate?: Estimate;
  offer?: number;
  unknown?: string;
}

/** Degrees, east positive, to be added to the compass on that magnetic heading. */
export interface DeviationSector {
  heading: number;
  /** What is left over after the card that holds now. */
  left: Estimate;
  seconds: number;
}

export interface Fitting {
  /** GNSS antenna aft of the bow roller, metres. */
  antennaAft: Fitted;
  /** Transducer below the waterline, metres, by the offset that the sounder itself sends. */
  sounder: Fitted;
  deviation: {
    sectors: DeviationSector[];
    /** A whole card, [magnetic heading, deviation]. */
    offer?: [number, number][];
    unknown?: string;
  };
}
