import { hypot } from '../quantities/vector.ts';
import { type Chart, depthOf, indexOf } from './chart.ts';
import { SOUNDINGS } from './limits.ts';
import { planeThrough, type Spot } from './plane.ts';

/** The shoalest spot that may matter: depth by the chart, its sigma, metres east and north of the origin. */
export interface Shoalest extends Spot {
  /** Sounded there, or carried on from soundings nearby. */
  sounded: boolean;
}

export interface Searched {
  shoalest?: Shoalest;
  share: number;
}

/** A known cell of the chart, by its index. */
export interface KnownSpot extends Spot {
  i: number;
  j: number;
}

/** Depths of all known cells, in their middle. */
export function spotsOf(chart: Chart): KnownSpot[] {
  const spots: KnownSpot[] = [];
  for (const [key, cell] of Object.entries(chart.cells)) {
    const known = depthOf(cell);
    if (!known) continue;
    const [i, j] = indexOf(key);
    const { depth, sigma } = known;
    spots.push({ i, j, east: (i + 0.5) * SOUNDINGS.side, north: (j + 0.5) * SOUNDINGS.side, depth, sigma });
  }
  return spots;
}

/**
 * Looks over the whole circle (metres about the chart's origin) for the least of depth less its uncertainty. A cell that is not
 * sounded, but near soundings, has the depth of the plane through all of them, moved to fit the nearest one, and a sigma that
 * grows with the way from it; farther off nothing is said, and `share` tells how much that is.
 */
export function searchCircle(
  spots: readonly KnownSpot[],
  centre: { east: number; north: number },
  radius: number,
): Searched {
  const plane = planeThrough(spots);
  if (!plane) return { share: 0 };
  const { departs } = SOUNDINGS;
  const departing = Math.min(departs.most, departs.least + departs.ofResidual * plane.residual);
  const { side } = SOUNDINGS;
  const inside = (i: number, j: number): boolean =>
    hypot((i + 0.5) * side - centre.east, (j + 0.5) * side - centre.north) <= radius;
  let shoalest: Shoalest | undefined;
  let seen = 0;
  for (const { i, j, spot: near, away: cells } of reached(spots)) {
    if (!inside(i, j)) continue;
    seen++;
    const east = (i + 0.5) * side;
    const north = (j + 0.5) * side;
    const here = cells === 0;
    const away = hypot(near.east - east, near.north - north);
    const depth = near.depth + plane.at(east, north) - plane.at(near.east, near.north);
    const sigma = here ? near.sigma : hypot(near.sigma, departing * away);
    if (!shoalest || depth - SOUNDINGS.sigmas * sigma < shoalest.depth - SOUNDINGS.sigmas * shoalest.sigma)
      shoalest = { east, north, depth, sigma, sounded: here };
  }
  const all = cellsIn(centre, radius, inside);
  return { ...(shoalest ? { shoalest } : {}), share: all === 0 ? 0 : seen / all };
}

/** How many cells have their middle in the circle. Column by column: a circle of 5 km has three million. */
function cellsIn(
  centre: { east: number; north: number },
  radius: number,
  inside: (i: number, j: number) => boolean,
): number {
  const { side } = SOUNDINGS;
  let all = 0;
  for (
    let i = Math.floor((centre.east - radius) / side);
    i <= Math.floor((centre.east + radius) / side);
    i++
  ) {
    const half = Math.sqrt(Math.max(0, radius ** 2 - ((i + 0.5) * side - centre.east) ** 2));
    // A cell too far out at either end, and then in to the first whose middle lies inside.
    let first = Math.floor((centre.north - half) / side) - 1;
    let last = Math.floor((centre.north + half) / side) + 1;
    while (first <= last && !inside(i, first)) first++;
    while (last >= first && !inside(i, last)) last--;
    all += last - first + 1;
  }
  return all;
}

interface Near {
  i: number;
  j: number;
  spot: Spot;
  /** In cells. */
  away: number;
}

/**
 * Every cell within reach of a known one, with the nearest of those, in order from west to east and south to north. From the spots
 * and not from the cells of the circle: those are 1600 at most, whatever circle somebody sets.
 */
function reached(spots: readonly KnownSpot[]): Near[] {
  const reach = Math.ceil(SOUNDINGS.reach / SOUNDINGS.side);
  const found = new Map<number, Near>();
  const known = [...spots].sort((a, b) => a.i - b.i || a.j - b.j);
  for (const spot of known)
    for (let di = -reach; di <= reach; di++)
      for (let dj = -reach; dj <= reach; dj++) {
        const away = hypot(di, dj);
        if (away >= reach + 1e-9) continue;
        const i = spot.i + di;
        const j = spot.j + dj;
        const key = i * COLUMN + j;
        const before = found.get(key);
        if (!before) found.set(key, { i, j, spot, away });
        else if (away < before.away) {
          before.spot = spot;
          before.away = away;
        }
      }
  return [...found.values()].sort((a, b) => a.i - b.i || a.j - b.j);
}

/** Cells of a column have numbers that no other column has: half of this many to either side are 2600 km. */
const COLUMN = 2 ** 20;
