import type { Estimate } from '../quantities/estimate.ts';
import { hypot } from '../quantities/vector.ts';
import { hangUnder } from './catenary.ts';
import { type Form, underwater, windage } from './loads/form.ts';
import { streamAlong } from './loads/stream.ts';
import { windLoad } from './loads/wind.ts';
import { submergedWeight } from './nature.ts';
import { rodeUnder } from './rode.ts';
import type { CableShape } from './shape.ts';

export interface ReachRequest {
  /** Cable out beyond the roller, m; sigma: 1 m or 3 % when left out. */
  veered: number;
  veeredSigma?: number;
  /** Depth from the surface, m; sigma: 0.3 m when left out. */
  depth: number;
  depthSigma?: number;
  /** Roller above the water, m. */
  rollerHeight: number;
  /** Chain, kg/m in air. */
  massPerMetre: number;
  /** Chain on board, m; what is veered beyond it is rope. Left out: all chain. */
  chainLength?: number;
  boat: Form;
  /** Wind over the ground, m/s; left out: unknown. */
  windSpeed?: number;
  /** m/s; left out: unknown, counted as none. */
  streamDrift?: number;
  /** Angle between where wind and stream push, degrees; left out: 0. */
  divergence?: number;
}

export interface ReachNow {
  /** Horizontal distance from anchor to roller where the cable balances wind and stream, m. */
  reach: Estimate;
  /** Limits of that distance: cable as a straight line, and cable hanging straight down, m. */
  taut: number;
  slack: number;
  /** The pull it was made from, N; absent when the wind is unknown. */
  load?: Estimate;
}

/** 14 mm nylon, kg/m (common value). */
const ROPE_MASS = 0.12;
const DEPTH_SIGMA = 0.3;
const VEERED_SIGMA = { least: 1, share: 0.03 };
/** Relative uncertainty of the stream's pull; of the wind's beyond that of the drag area (gusts, height of the vane, sheer). */
const STREAM_SIGMA = 0.4;
const GUST_SIGMA = 0.35;

/**
 * How far from her anchor the roller lies in this wind and stream, cheap enough to ask at every fix (catenary, steady drag
 * ½ρC_d·A·V², UFC 4-159-03 for the stream). The sigma counts drag area, gusts, depth and length veered. With an unknown wind,
 * the middle between slack and taut. Undefined when a measure is not a positive number; 0 when the cable does not reach the bottom.
 */
export function reachNow(request: ReachRequest): ReachNow | undefined {
  const { veered, depth, rollerHeight, massPerMetre, windSpeed } = request;
  const height = depth + rollerHeight;
  if (!(veered > 0 && height > 0 && massPerMetre > 0 && veered < 1e6 && height < 1e6)) return undefined;
  if (veered <= height) return { reach: { value: 0, sigma: VEERED_SIGMA.least }, taut: 0, slack: 0 };
  const taut = Math.sqrt((veered - height) * (veered + height));
  const slack = veered - height;
  if (windSpeed === undefined || !(windSpeed >= 0)) {
    return { reach: { value: (slack + taut) / 2, sigma: (taut - slack) / Math.sqrt(12) }, taut, slack };
  }
  const load = steadyPull({ ...request, windSpeed });
  const now = shapeUnder(request, load.value);
  const value = reachOf(now);
  const spread = load.value > 1e-6 ? Math.exp(Math.min(2, load.sigma / load.value)) : 1;
  const strong = reachOf(shapeUnder(request, load.value * spread));
  const weak = reachOf(shapeUnder(request, load.value / spread));
  const byLoad = (strong - weak) / 2;
  // −dx/dh is h/s exactly for a uniform part-grounded cable, and near it for the others.
  const hangs = now.state === 'infeasible' ? height : now.suspended;
  const byDepth = ((request.depthSigma ?? DEPTH_SIGMA) * height) / hangs;
  const byVeered = request.veeredSigma ?? Math.max(VEERED_SIGMA.least, VEERED_SIGMA.share * veered);
  const sigma = Math.sqrt(byLoad * byLoad + byDepth * byDepth + byVeered * byVeered);
  return { reach: { value, sigma }, taut, slack, load };
}

/**
 * Steady horizontal pull on the cable, N, from wind (m/s) and stream (m/s, 0 when unknown) pushing `divergence` degrees apart. Sheer,
 * waves and snatching are not in it. Sources as for `reachNow`.
 */
export function steadyPull({
  boat,
  windSpeed,
  streamDrift = 0,
  divergence = 0,
}: Pick<ReachRequest, 'boat' | 'streamDrift' | 'divergence'> & { windSpeed: number }): Estimate {
  const { ahead } = windage(boat);
  const wind = windLoad(ahead.value, windSpeed);
  const stream = streamDrift > 0 ? streamAlong(underwater(boat), streamDrift) : 0;
  const cosine = Math.cos((divergence * Math.PI) / 180);
  const value = Math.sqrt(Math.max(0, wind * wind + stream * stream + 2 * wind * stream * cosine));
  const windSigma = wind * hypot(ahead.sigma / ahead.value, GUST_SIGMA);
  return { value, sigma: hypot(windSigma, stream * STREAM_SIGMA) };
}

function shapeUnder(request: ReachRequest, horizontal: number): CableShape {
  const { veered, depth, rollerHeight, massPerMetre, chainLength } = request;
  const height = depth + rollerHeight;
  const weight = submergedWeight(massPerMetre);
  if (chainLength === undefined || chainLength >= veered) {
    return hangUnder({ length: veered, height, weight }, horizontal);
  }
  const rope = { length: veered - chainLength, weight: submergedWeight(ROPE_MASS, 'nylon') };
  return rodeUnder({ height, parts: [{ length: chainLength, weight }, rope] }, horizontal);
}

const reachOf = (shape: CableShape): number => (shape.state === 'infeasible' ? 0 : shape.reach);
