import { circularMean, degrees, direction, radians, signed } from '../quantities/angle.ts';
import type { Settings } from '../settings.ts';
import { deviationAt } from '../vessel/deviation.ts';
import { addRow, noSums, solve } from './linear.ts';
import type { DeviationSector, Fitting } from './view.ts';

/** The boat under way at one moment: true heading as hawse corrects it, velocity over the ground, speed by the log; m/s. */
export interface CourseSample {
  at: number;
  heading: number;
  variation: number;
  east: number;
  north: number;
  log: number;
}

const SECTORS = 8;
/** Seconds on a sector's courses before it counts. */
const LEAST = 60;
/** Leeway and what a stream does that is not the same all the while, degrees: practice, as a floor of sigma. */
const FLOOR = 1;
/** Readings of a compass and courses of a receiver hang together over about so many seconds. */
const CORRELATED = 10;
/** Offered where what is left over is more than so many sigma, and more than so many degrees. */
const CLEAR = 2;
const WORTH = 3;

/**
 * What the compass is still out by, for each eighth of the horizon: the course through the water against the heading, under way. The
 * stream is taken out by the log: over the ground she moves by her log's speed (times a constant) along her heading, plus the
 * stream, and on courses all round the horizon the two tell apart. Leeway is left over in it.
 */
export function fitDeviation(
  samples: readonly CourseSample[],
  settings: Settings,
  ownCard: boolean,
): Fitting['deviation'] {
  if (samples.length === 0)
    return { sectors: [], unknown: 'Not been under way at more than 3 kn with heading, log and light wind.' };
  const stream = streamOf(samples);
  if (!stream)
    return {
      sectors: [],
      unknown:
        'The courses steered are too much alike to tell the compass from the stream: turn all round the horizon.',
    };
  const found = Array.from({ length: SECTORS }, (_, i) => sectorOf(samples, stream, (i * 360) / SECTORS));
  const sectors = found.filter((sector) => sector !== undefined);
  if (sectors.length < SECTORS)
    return { sectors, unknown: 'Some courses are still missing: steer the others for a minute each.' };
  const off = sectors.some(({ left: { value, sigma } }) => Math.abs(value) > Math.max(WORTH, CLEAR * sigma));
  if (!off) return { sectors };
  if (ownCard)
    return {
      sectors,
      unknown: 'The compass corrects itself by a card of its own: it is to be mended there.',
    };
  const offer = sectors.map(({ heading, left }): [number, number] => [
    heading,
    Math.round(2 * (deviationAt(heading, settings.deviation) + left.value)) / 2,
  ]);
  return { sectors, offer };
}

/** Stream by least squares of v·h = k·log + E·sin ψ + N·cos ψ; undefined when the courses do not go all round. */
function streamOf(samples: readonly CourseSample[]): { east: number; north: number } | undefined {
  const round = circularMean(samples.map(({ heading }) => heading));
  if (round && round.concentration > 0.6) return undefined;
  const sums = noSums(3);
  for (const { heading, east, north, log } of samples) {
    const [sin, cos] = [Math.sin(radians(heading)), Math.cos(radians(heading))];
    addRow(sums, [log, sin, cos], east * sin + north * cos);
  }
  const solved = solve(sums.square, sums.right);
  return solved && { east: solved[1]!, north: solved[2]! };
}

function sectorOf(
  samples: readonly CourseSample[],
  stream: { east: number; north: number },
  centre: number,
): DeviationSector | undefined {
  let sum = 0;
  let squares = 0;
  let n = 0;
  for (const { heading, variation, east, north } of samples) {
    const magnetic = direction(heading - variation);
    if (Math.abs(signed(magnetic - centre)) > 180 / SECTORS) continue;
    const course = degrees(Math.atan2(east - stream.east, north - stream.north));
    const left = signed(course - heading);
    sum += left;
    squares += left * left;
    n++;
  }
  if (n < LEAST) return undefined;
  const value = sum / n;
  const spread = Math.sqrt(Math.max(0, squares / n - value * value));
  return {
    heading: centre,
    left: { value, sigma: Math.hypot(FLOOR, spread / Math.sqrt(n / CORRELATED)) },
    seconds: n,
  };
}
