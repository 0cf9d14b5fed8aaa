import { degrees, direction, radians, turn } from '../quantities/angle.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { balance } from './balance.ts';
import { type Form, underwater, windage } from './loads/form.ts';
import { streamAcross } from './loads/stream.ts';
import { windPressure } from './loads/wind.ts';

/** Wind over the ground and stream, with one-sigma uncertainties where known. Left out: unknown (for none tell a speed of 0). */
export interface Weather {
  wind?: { from: number; speed: number; fromSigma?: number; speedSigma?: number };
  stream?: { set: number; drift: number; setSigma?: number; driftSigma?: number };
}

/** One sigma of the logarithm of the ratio of the two moments: hulls differ by a factor of two (common practice). */
const RATIO_SIGMA = 0.7;
/** Ratios that stand for all likely ones: five of equal probability, in sigmas of the logarithm. */
const RATIOS = [-1.46, -0.6, 0, 0.6, 1.46];
/** She sheers about her mean heading, usually by 30° to each side (Dulhunty; Calder): 30°/√2; twice as much with wind against
 * stream of like strength (common practice). */
const SHEER = 21;
/** What an unknown stream or wind may well be, m/s (common practice). */
const UNTOLD = { drift: 0.25, wind: 4 };
/** Standard deviation of an angle of which nothing is known: 180/√3. */
const UNKNOWN_ANGLE = 104;
/** Newton metres below which nothing turns her: about 0.5 m/s of wind. */
const NOTHING = 10;

/**
 * Heading at which a boat lies to her anchor in wind and stream, from the balance of moments about the bow roller (balance.ts).
 * Depth in metres (∞ when left out) matters for the stream's side force. A first-order model: its sigma holds her sheer, and how
 * far the balance moves, or flips over, when the ratio of the two moments is another likely one; so it is large when wind and
 * stream oppose each other. Of two headings that hold, the one nearer to `near` (degrees) is given, or the one held harder;
 * `other` is the second. Undefined in a calm without stream.
 */
export function predictedHeading(
  boat: Form,
  { wind, stream }: Weather,
  depth?: number,
  near?: number,
): { heading: Estimate; other?: number } | undefined {
  const ofWind = (speed: number) => boat.length * windPressure(speed) * windage(boat).abeam.value;
  const ofStream = (drift: number) => boat.length * streamAcross(underwater(boat), drift, depth);
  const windMoment = wind ? ofWind(wind.speed) : 0;
  const streamMoment = stream ? ofStream(stream.drift) : 0;
  if (!(windMoment + streamMoment > NOTHING)) return undefined;
  const headings = (ratio: number) => {
    const found = balance({
      wind: windMoment * ratio,
      windFrom: wind?.from ?? 0,
      stream: streamMoment / ratio,
      streamFrom: direction((stream?.set ?? 0) + 180),
    });
    if (near !== undefined) found.sort((a, b) => Math.abs(turn(near, a)) - Math.abs(turn(near, b)));
    return found;
  };
  const [best, other] = headings(1);
  if (best === undefined) return undefined;
  const spread = ratioSpread(wind, stream);
  const moved = RATIOS.map((sigmas) =>
    sigmas === 0 ? 0 : turn(best, headings(Math.exp((sigmas * spread) / 2))[0] ?? best),
  );
  const byRatio = Math.sqrt(moved.reduce((sum, angle) => sum + angle * angle, 0) / moved.length);
  const share = windMoment / (windMoment + streamMoment);
  const byDirections = Math.hypot(share * (wind?.fromSigma ?? 0), (1 - share) * (stream?.setSigma ?? 0));
  const against = opposition(windMoment, streamMoment, wind && stream ? turn(wind.from, stream.set) : 180);
  // An untold one pushes from anywhere: its part across her is 1/√2 of it.
  const untold = (wind ? 0 : ofWind(UNTOLD.wind)) + (stream ? 0 : ofStream(UNTOLD.drift));
  const byUntold = degrees(Math.atan2(untold * Math.SQRT1_2, windMoment + streamMoment));
  const sigma = Math.min(UNKNOWN_ANGLE, Math.hypot(SHEER * (1 + against), byRatio, byDirections, byUntold));
  return { heading: { value: best, sigma }, ...(other === undefined ? {} : { other }) };
}

/** How far a measured heading (degrees, with its sigma) is off the predicted one: signed degrees, and in sigmas of the two together. */
export function offPrediction(predicted: Estimate, measured: Estimate): { off: number; sigmas: number } {
  const off = turn(predicted.value, measured.value);
  return { off, sigmas: Math.abs(off) / Math.max(1e-9, Math.hypot(predicted.sigma, measured.sigma)) };
}

/** How much wind and stream work against each other, 0 to 1: of like strength, from opposite sides. `apart`: wind from to stream's set. */
function opposition(wind: number, stream: number, apart: number): number {
  const alike = (2 * Math.min(wind, stream)) / (wind + stream);
  return (Math.sqrt(alike) * (1 + Math.cos(radians(apart)))) / 2;
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
