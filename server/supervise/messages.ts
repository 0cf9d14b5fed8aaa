/** What the keeper of the watch and the process above it say to each other. */
export type FromKeeper =
  | { type: 'alive' }
  /** Everything is up. `stallSeconds`: how long it may be silent; `shout`: commands to run when it is in trouble. */
  | { type: 'ready'; stallSeconds: number; shout: string[][] };
export type FromAbove = { type: 'stop'; reason: string };

/** Set in the environment of the process that keeps the watch, when another is above it. */
export const SUPERVISED = 'HAWSE_SUPERVISED';
/** How the one before it ended, in words. */
export const ENDED = 'HAWSE_ENDED';
