import { give, reaches } from './catenary.ts';
import type { Hang } from './shape.ts';

/** Share of her own mass that the water moving with a boat adds when she surges ahead or astern (common practice). */
const ADDED_MASS = 0.05;

export interface Surge {
  hang: Hang;
  /** Steady horizontal pull that goes on while she surges, N. */
  load: number;
  /** Boat, kg, and her speed away from the anchor when she passes her place of rest, m/s. */
  mass: number;
  speed: number;
  /** Stiffness of a snubber, N/m; left out: none. */
  snubber?: number;
}

/** held: the largest pull (N) and how far she went (m); unbounded: chain alone can't stop her before it is a straight line. */
export type SurgeEnd = { state: 'held'; peak: number; travel: number } | { state: 'unbounded' };

/** Pull up to which the energy is followed, as a multiple of the cable's weight: far above what any chain bears. */
const STRONGEST = 3000;
const STEP = 1.05;

/**
 * Largest pull when a boat surges back on her cable: her energy ½mv² goes into lifting chain and stretching the snubber,
 * ∫(H − load) dx. An inextensible chain has no finite peak once it is nearly taut (seamanship-physics.md §1.6), which is said
 * instead of a number. Quasi-static: without damping and without the inertia of the chain. Undefined for measures that make no sense.
 */
export function surge({ hang, load, mass, speed, snubber }: Surge): SurgeEnd | undefined {
  const { length, height, weight } = hang;
  const sane = load > 0 && mass > 0 && speed >= 0 && speed < 50 && mass < 1e9 && (snubber ?? 1) > 0;
  if (!sane || !(length > height && height > 0 && weight > 0 && length < 1e6)) return undefined;
  const energy = 0.5 * mass * (1 + ADDED_MASS) * speed * speed;
  const yielding = (pull: number) => give(hang, pull) + (snubber === undefined ? 0 : 1 / snubber);
  const work = (pull: number) => (pull - load) * yielding(pull);
  const ends = reaches(hang);
  const liftOff = ends.state === 'reaches' ? ends.liftOff : 0;
  let taken = 0;
  let travel = 0;
  let low = load;
  while (low < Math.max(STRONGEST * weight * length, 1000 * load)) {
    // A panel ends where the last link lifts: the cable's stiffness has a corner there.
    const high = low < liftOff ? Math.min(low * STEP, liftOff) : low * STEP;
    const more = integral(work, low, high);
    if (taken + more >= energy) {
      const peak = within(low, high, (pull) => taken + integral(work, low, pull) - energy);
      return { state: 'held', peak, travel: travel + integral(yielding, low, peak) };
    }
    taken += more;
    travel += integral(yielding, low, high);
    low = high;
  }
  return { state: 'unbounded' };
}

/** Gauss-Legendre with three points. */
function integral(f: (x: number) => number, from: number, to: number): number {
  const middle = (from + to) / 2;
  const half = (to - from) / 2;
  const off = half * Math.sqrt(0.6);
  return (half * (5 * f(middle - off) + 8 * f(middle) + 5 * f(middle + off))) / 9;
}

/** Zero of a growing function between two points, by halving. */
function within(from: number, to: number, f: (x: number) => number): number {
  let low = from;
  let high = to;
  for (let step = 0; step < 50; step++) {
    const middle = (low + high) / 2;
    if (f(middle) < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * Stiffness (N/m) of a snubber of three-strand nylon, from diameter (mm) and length (m): about 12 % longer at 15 % of a breaking
 * load of 208 N/mm² (common practice; ropes differ by a third and soften with use).
 */
export function nylonSnubber(diameter: number, length: number): { value: number; sigma: number } {
  const value = ((0.15 / 0.12) * 208 * diameter * diameter) / length;
  return { value, sigma: value / 3 };
}
