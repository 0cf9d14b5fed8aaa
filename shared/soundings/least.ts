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
  const known = new Map(spots.map((spot) => [spot.key, spot]));
  const { side } = SOUNDINGS;
  const reach = Math.ceil(SOUNDINGS.reach / side);
  let shoalest: Shoalest | undefined;
  let all = 0;
  let seen = 0;
  const from = (middle: number) => Math.floor((middle - radius) / side);
  const to = (middle: number) => Math.floor((middle + radius) / side);
  for (let i = from(centre.east); i <= to(centre.east); i++)
    for (let j = from(centre.north); j <= to(centre.north); j++) {
      const east = (i + 0.5) * side;
      const north = (j + 0.5) * side;
      if (Math.hypot(east - centre.east, north - centre.north) > radius) continue;
      all++;
      const here = known.get(keyOf(i, j));
      const near = here ?? nearest(known, i, j, reach);
      if (!near) continue;
      seen++;
      const away = Math.hypot(near.east - east, near.north - north);
      const depth = near.depth + plane.at(east, north) - plane.at(near.east, near.north);
      const sigma = here ? here.sigma : Math.hypot(near.sigma, departing * away);
      if (!shoalest || depth - SOUNDINGS.sigmas * sigma < shoalest.depth - SOUNDINGS.sigmas * shoalest.sigma)
        shoalest = { east, north, depth, sigma, sounded: here !== undefined };
    }
  return { ...(shoalest ? { shoalest } : {}), share: all === 0 ? 0 : seen / all };
}

/** The nearest known cell within so many cells; undefined when there is none. */
function nearest(known: ReadonlyMap<string, Spot>, i: number, j: number, reach: number): Spot | undefined {
  let best: Spot | undefined;
  let least = reach + 1e-9;
  for (let di = -reach; di <= reach; di++)
    for (let dj = -reach; dj <= reach; dj++) {
      const away = Math.hypot(di, dj);
      if (away > least) continue;
      const spot = known.get(keyOf(i + di, j + dj));
      if (spot && away < least) {
        best = spot;
        least = away;
      }
    }
  return best;
}
