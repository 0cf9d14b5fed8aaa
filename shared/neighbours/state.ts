import type { Parts } from '../ais/assemble.ts';
import type { Extent } from '../ais/message.ts';
import type { Finding } from '../alerts/alert.ts';
import type { LatLon } from '../quantities/estimate.ts';
import type { HandNeighbour, NeighbourView } from './view.ts';

/** One vessel as AIS has told her: plain data. Times are UNIX seconds on the engine's timeline. */
export interface Target {
  mmsi: number;
  name?: string;
  shipType?: number;
  extent?: Extent;
  status?: number;
  /** When anything was heard of her. */
  heardAt: number;
  /** Her antenna, when that was heard, and the step in which it is told, metres. */
  place?: LatLon;
  at: number;
  resolution?: number;
  sog?: number;
  cog?: number;
  heading?: number;
  /** Since when she has lain still, as far as heard. */
  restSince?: number;
  /** Where she was, every half minute, oldest first. */
  places: { at: number; lat: number; lon: number }[];
  /** Where her anchor is guessed to lie: running mean of the guesses made while she lay still, the last from the place kept at `at`. */
  anchor?: { lat: number; lon: number; guesses: number; at: number };
}

export interface Told extends HandNeighbour {
  id: string;
  by: string;
  at: number;
  /** Where her anchor lies, as reckoned when she was told. */
  anchor: LatLon;
  /** Metres from there to her bow. */
  reach: number;
}

export interface NeighboursState {
  parts: Parts;
  /** Our own number, as our own transponder tells it. */
  own?: number;
  targets: Target[];
  told: Told[];
  toldCount: number;
  /** Messages understood, of other kinds, and refused. */
  heard: { read: number; other: number; malformed: number; lastRefusal?: string };
  /** What lasts: start and last sight of a condition, by neighbour and condition. */
  lasting: { key: string; since: number; seen: number; holds: boolean }[];
  /** As of the last whole second. */
  views: NeighbourView[];
  found: Finding[];
}

export const createNeighbours = (): NeighboursState => ({
  parts: [],
  targets: [],
  told: [],
  toldCount: 0,
  heard: { read: 0, other: 0, malformed: 0 },
  lasting: [],
  views: [],
  found: [],
});
