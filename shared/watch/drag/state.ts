import type { AnchorFilter } from './filter.ts';
import type { Allowed, Reading } from './reading.ts';
import type { Receiver } from './receiver.ts';
import type { Supposed } from './supposed.ts';

/** All that the drag watch remembers: plain data. */
export interface DragState {
  /** The story that the anchor holds. */
  holds: AnchorFilter;
  /** The mark that it is about, and the length of cable and the source of position it has seen. */
  of: { lat: number; lon: number; at: number; veered?: number; source?: string };
  /** She has lain where mark and cable let her lie; until then the mark does not fit, and there is no anchor to judge. */
  fits?: true;
  /** The length of cable that is supposed while nobody has told it. */
  supposed?: Supposed;
  /** Wind that has acted lately, m/s: running mean over about half a minute. */
  wind?: { speed: number; at: number };
  allowed?: Allowed;
  receiver: Receiver;
  /** The block of fixes that is being gathered: its two farthest readings. */
  block?: { since: number; count: number; first: Reading; second?: Reading };
  /** The readings of the last blocks, oldest first, and how many there have been. */
  recent: Reading[];
  blocks: number;
  /** Since when she has lain farther out than the freeze allows, UNIX seconds. */
  suspectSince?: number;
  /** How this receiver scatters: its slow error's variance against the supposed one; mean square of readings, and their number. */
  scatter: { value: number; square: number; readings: number };
  /** What the readings lately say against the story. */
  against?: Against;
  /** Since when every fix has been farther out than can be expected, and how many. */
  outside?: { since: number; fixes: number };
  /** What is found at present, since when, why in words, and which way the cable pulled then (unit vector). */
  found?: { level: 'caution' | 'alarm'; since: number; why: string; east: number; north: number };
}

interface Against {
  at: number;
  /** Metres beyond where a held anchor lets her lie, their sigma and the ratio. */
  metres: number;
  sigma: number;
  sigmas: number;
  /** Direction in which the cable pulls (unit vector from mark to roller). */
  east: number;
  north: number;
  reading: Reading;
}
