import type { LatLon } from '../quantities/estimate.ts';
import { SOUNDINGS } from './limits.ts';

/** Soundings of one square of the bottom, the newest last. */
export interface Cell {
  depths: number[];
  at: number;
}

/** A chart of the bottom in squares about an origin: plain data. */
export interface Chart {
  origin: LatLon;
  reduced: boolean;
  cells: Record<string, Cell>;
}

export const keyOf = (i: number, j: number): string => `${i},${j}`;

export function indexOf(key: string): [number, number] {
  const comma = key.indexOf(',');
  return [Number(key.slice(0, comma)), Number(key.slice(comma + 1))];
}

/** Enters a depth (m) at metres east and north of the origin. */
export function enter(chart: Chart, east: number, north: number, depth: number, at: number): void {
  const key = keyOf(Math.floor(east / SOUNDINGS.side), Math.floor(north / SOUNDINGS.side));
  const cell = chart.cells[key];
  if (!cell) {
    if (Object.keys(chart.cells).length < SOUNDINGS.most) chart.cells[key] = { depths: [depth], at };
    return;
  }
  if (at - cell.at < SOUNDINGS.every) return;
  cell.depths.push(depth);
  cell.at = at;
  if (cell.depths.length > SOUNDINGS.kept) cell.depths.shift();
}

/**
 * Depth of a cell and its sigma, m: the median, which four wild ones of nine do not move, and the spread about it. Undefined while
 * too few soundings are there to tell weed from bottom.
 */
export function depthOf({ depths }: Cell): { depth: number; sigma: number } | undefined {
  if (depths.length < SOUNDINGS.known) return undefined;
  const depth = median(depths);
  // 1.4826 × the median deviation is the sigma of a normal distribution (Hampel 1974).
  const spread = 1.4826 * median(depths.map((one) => Math.abs(one - depth)));
  // 1.2533 = √(π/2): a median is so much less sure than a mean.
  return {
    depth,
    sigma: Math.max(SOUNDINGS.sigma, (1.2533 * Math.max(spread, SOUNDINGS.sigma)) / Math.sqrt(depths.length)),
  };
}

function median(values: readonly number[]): number {
  // A handful: put in one by one, which for so few takes a fraction of what `sort` takes.
  const sorted: number[] = [];
  for (const value of values) {
    let place = sorted.length;
    while (place > 0 && sorted[place - 1]! > value) place--;
    sorted.splice(place, 0, value);
  }
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
