import { degrees, direction, radians, turn } from '../quantities/angle.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { balance } from './balance.ts';
import { type Form, underwater, windage } from './loads/form.ts';
import { streamAcross } from './loads/stream.ts';
import { windPressure } from './loads/wind.ts';

/** Wind over the ground and stream, with one-sigma uncertainties where known. */
export interface Weather {
  wind?: { from: number; speed: number; fromSigma?: number; speedSigma?: number };
  stream?: { set: number; drift: number; setSigma?: number; driftSigma?: number };
}

/** One sigma of the logarithm of the ratio of the two moments: hulls differ by a factor of two (common practice). */
const RATIO_SIGMA = 0.7;
/** She sheers about her mean heading in any case, degrees. */
const LEAST_SIGMA = 8;
/** Standard deviation of an angle of which nothing is known: 180/√3. */
const UNKNOWN_ANGLE = 104;
/** Newton metres below which nothing turns her: about 0.5 m/s of wind. */
const NOTHING = 10;

/**
 * Heading at which a boat lies to her anchor in wind and stream, from the balance of moments about the bow roller (balance.ts).
 * Depth in metres (∞ when left out) matters for the stream's side force. A first-order model: its sigma counts how far the
 * balance would move if the ratio of the two moments were wrong by a factor of two, so it grows as wind and stream oppose each other.
 * Of two headings that hold, the one nearer to `near` (degrees) is given, or the one held harder; `other` is the second.
 * Undefined in a calm without stream.
 */
export function predictedHeading(
  boat: Form,
  { wind, stream }: Weather,
  depth?: number,
  near?: number,
): { heading: Estimate; other?: number } | undefined {
  const windMoment = wind ? boat.length * windPressure(wind.speed) * windage(boat).abeam.value : 0;
  const streamMoment = stream ? boat.length * streamAcross(underwater(boat), stream.drift, depth) : 0;
  if (!(windMoment + streamMoment > NOTHING)) return undefined;
  const all = balance({
    wind: windMoment,
    windFrom: wind?.from ?? 0,
    stream: streamMoment,
    streamFrom: direction((stream?.set ?? 0) + 180),
  });
  if (near !== undefined)
    all.sort((a, b) => Math.abs(turn(near, a.heading)) - Math.abs(turn(near, b.heading)));
  const [best, second] = all;
  if (!best) return undefined;
  const byRatio = ratioSpread(wind, stream) * best.byRatio;
  const share = windMoment / (windMoment + streamMoment);
  const byDirections = Math.hypot(share * (wind?.fromSigma ?? 0), (1 - share) * (stream?.setSigma ?? 0));
  const sigma = Math.min(UNKNOWN_ANGLE, Math.hypot(LEAST_SIGMA, byRatio, byDirections));
  return { heading: { value: best.heading, sigma }, ...(second ? { other: second.heading } : {}) };
}

function ratioSpread(wind: Weather['wind'], stream: Weather['stream']): number {
  const relative = (sigma: number | undefined, speed: number | undefined) =>
    speed ? Math.min(1, (2 * (sigma ?? 0)) / speed) : 0;
  return Math.hypot(
    RATIO_SIGMA,
    relative(wind?.speedSigma, wind?.speed),
    relative(stream?.driftSigma, stream?.drift),
  );
}

/** Direction (degrees true) in which the cable grows when she lies to these forces as a free body: against their sum. */
export function resultant(push: { toward: number; force: number }[]): { force: number; toward: number } {
  let east = 0;
  let north = 0;
  for (const { toward, force } of push) {
    east += force * Math.sin(radians(toward));
    north += force * Math.cos(radians(toward));
  }
  return { force: Math.hypot(east, north), toward: direction(degrees(Math.atan2(east, north))) };
}
