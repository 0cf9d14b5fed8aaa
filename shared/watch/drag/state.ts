import type { AnchorFilter } from './filter.ts';
import type { Reading } from './reading.ts';

/** All that the drag watch remembers: plain data. */
export interface DragState {
  filter: AnchorFilter;
  /** The mark that the filter is about, and the length of cable and the source of position it has seen. */
  of: { lat: number; lon: number; at: number; veered?: number; source?: string };
  /** Wind that has acted lately, m/s: running mean over about half a minute. */
  wind?: { speed: number; at: number };
  /** The block of fixes that is being gathered: its two farthest readings. */
  block?: { since: number; count: number; first: Reading; second?: Reading };
  /** Means of the filter before the last blocks, oldest first: the fast path compares with these, so that it does not follow the loss. */
  before: number[][];
  /** Direction (unit vector) in which the cable has pulled lately. */
  pull?: { east: number; north: number };
  /** When the anchor was last within one sigma of not having moved. */
  quietSince: number;
  /** Since when every fix has been farther out than can be expected, and how many. */
  outside?: { since: number; fixes: number };
  /** What is found at present, since when, and why in words. */
  level?: 'caution' | 'alarm';
  since?: number;
  why?: string;
}
