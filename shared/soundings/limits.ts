/** Every number of the soundings, metres and seconds; our choice, checked by the simulated bottoms of tests/shared/soundings. */
export const SOUNDINGS = {
  side: 5,
  /** A cell keeps its last soundings; this many make it known. */
  kept: 9,
  known: 3,
  /** Between two that count in one cell: a fish stays for a moment. */
  every: 3,
  /** Soundings belong to a fix no older than this. */
  together: 2,
  /** Without heading the sounder may be anywhere about the roller: not farther than this. */
  blindOffset: 3,
  /** Largest number of cells; a circle of 110 m. */
  most: 1600,
  /** Sigma of one sounding (sounder, waves, place of the cell on a slope). */
  sigma: 0.15,
  /** Beyond soundings the bottom goes on as a plane; it departs from it for each metre by so much, and more the less the soundings lie in one. */
  departs: { least: 0.012, ofResidual: 0.1, most: 0.06 },
  /** Farther than this from any sounding nothing is said of the bottom. */
  reach: 15,
  /** How often the chart is drawn anew, s. */
  redraw: 30,
  /** Sigmas that a shoal is allowed for. */
  sigmas: 1.3,
} as const;
