import type { Bank } from './bank.ts';
import type { Reading } from './reading.ts';

/** All that the drag watch remembers: plain data. */
export interface DragState {
  bank: Bank;
  /** The mark that it is about, and the length of cable and the source of position it has seen. */
  of: { lat: number; lon: number; at: number; veered?: number; source?: string };
  /** Wind that has acted lately, m/s: running mean over about half a minute. */
  wind?: { speed: number; at: number };
  /** The block of fixes that is being gathered: its two farthest readings, and how far the fixes have moved beyond what the velocity says. */
  block?: {
    since: number;
    count: number;
    first: Reading;
    second?: Reading;
    thrown: { east: number; north: number };
  };
  /** Antenna and velocity of the last fix, to tell a thrown position from a sailed one. */
  last?: { at: number; lat: number; lon: number; east: number; north: number };
  /** Direction (unit vector) in which the cable has pulled lately. */
  pull?: { east: number; north: number };
  /** Since when every fix has been farther out than can be expected, and how many. */
  outside?: { since: number; fixes: number };
  /** What is found at present, since when, and why in words. */
  level?: 'caution' | 'alarm';
  since?: number;
  why?: string;
}
