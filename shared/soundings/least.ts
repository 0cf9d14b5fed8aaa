import { type Chart, depthOf, indexOf, keyOf } from './chart.ts';
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

/** Depths of all known cells, in their middle. */
export function spotsOf(chart: Chart): (Spot & { key: string })[] {
  const spots: (Spot & { key: string })[] = [];
  for (const [key, cell] of Object.entries(chart.cells)) {
    const known = depthOf(cell);
    if (!known) continue;
    const [i, j] = indexOf(key);
    spots.push({ key, east: (i + 0.5) * SOUNDINGS.side, north: (j + 0.5) * SOUNDINGS.side, ...known });
  }
  return spots;
}

/**
 * Looks over the whole circle (metres about the chart's origin) for the least of depth less its uncertainty. A cell that is not
 * sounded, but near soundings, has the depth of the plane through all of them, moved to fit the nearest one, and a sigma that
 * grows with the way from it; farther off nothing is said, and `share` tells how much that is.
 */
export function searchCircle(
  chart: Chart,
  centre: { east: number; north: number },
  radius: number,
): Searched {
  const spots = spotsOf(chart);
  const plane = planeThrough(spots);
  if (!plane) return { share: 0 };
  const { departs } = SOUNDINGS;
  const departing = Math.min(departs.most, departs.least + departs.ofResidual * plane.residual);
  const { side } = SOUNDINGS;
  const inside = (i: number, j: number): boolean =>
    Math.hypot((i + 0.5) * side - centre.east, (j + 0.5) * side - centre.north) <= radius;
  let shoalest: Shoalest | undefined;
  let seen = 0;
  for (const { i, j, spot: near, away: cells } of reached(spots)) {
    if (!inside(i, j)) continue;
    seen++;
    const east = (i + 0.5) * side;
    const north = (j + 0.5) * side;
    const here = cells === 0;
    const away = Math.hypot(near.east - east, near.north - north);
    const depth = near.depth + plane.at(east, north) - plane.at(near.east, near.north);
    const sigma = here ? near.sigma : Math.hypot(near.sigma, departing * away);
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
function reached(spots: readonly (Spot & { key: string })[]): Near[] {
  const reach = Math.ceil(SOUNDINGS.reach / SOUNDINGS.side);
  const found = new Map<string, Near>();
  const known = spots
    .map((spot) => ({ spot, at: indexOf(spot.key) }))
    .sort(({ at: [i, j] }, { at: [k, l] }) => i - k || j - l);
  for (const { spot, at } of known)
    for (let di = -reach; di <= reach; di++)
      for (let dj = -reach; dj <= reach; dj++) {
        const away = Math.hypot(di, dj);
        if (away >= reach + 1e-9) continue;
        const [i, j] = [at[0] + di, at[1] + dj];
        const key = keyOf(i, j);
        const before = found.get(key);
        if (!before || away < before.away) found.set(key, { i, j, spot, away });
      }
  return [...found.values()].sort((a, b) => a.i - b.i || a.j - b.j);
}
