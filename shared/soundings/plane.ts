/** A known spot of the bottom: metres east and north, depth and its sigma, m. */
export interface Spot {
  east: number;
  north: number;
  depth: number;
  sigma: number;
}

export interface Plane {
  at(east: number, north: number): number;
  /** Standard deviation of the spots about it, m. */
  residual: number;
}

/** A slope steeper than this is no bottom to anchor on: the fit is then held to it. Depth a metre. */
const STEEPEST = 0.25;
/** Prior sigma of the slope, depth a metre: spots in a row tell nothing of the slope across it. */
const PRIOR_SLOPE = 0.05;

/** The plane that fits best (least squares, weighted, the slopes held towards level by their prior); undefined without spots. */
export function planeThrough(spots: readonly Spot[]): Plane | undefined {
  let w = 0;
  let e = 0;
  let n = 0;
  let d = 0;
  for (const { east, north, depth, sigma } of spots) {
    const weight = 1 / (sigma * sigma);
    w += weight;
    e += weight * east;
    n += weight * north;
    d += weight * depth;
  }
  if (!(w > 0)) return undefined;
  const [meanEast, meanNorth, mean] = [e / w, n / w, d / w];
  let ee = 1 / PRIOR_SLOPE ** 2;
  let nn = ee;
  let en = 0;
  let ed = 0;
  let nd = 0;
  for (const { east, north, depth, sigma } of spots) {
    const weight = 1 / (sigma * sigma);
    const [x, y, z] = [east - meanEast, north - meanNorth, depth - mean];
    ee += weight * x * x;
    nn += weight * y * y;
    en += weight * x * y;
    ed += weight * x * z;
    nd += weight * y * z;
  }
  const determinant = ee * nn - en * en;
  const held = (slope: number) => Math.min(STEEPEST, Math.max(-STEEPEST, slope));
  const slopeEast = held((ed * nn - nd * en) / determinant);
  const slopeNorth = held((nd * ee - ed * en) / determinant);
  const at = (east: number, north: number) =>
    mean + slopeEast * (east - meanEast) + slopeNorth * (north - meanNorth);
  let squares = 0;
  for (const { east, north, depth } of spots) squares += (depth - at(east, north)) ** 2;
  return { at, residual: Math.sqrt(squares / Math.max(1, spots.length - 3)) };
}
