import { radians } from '../quantities/angle.ts';
import type { Estimate } from '../quantities/estimate.ts';
import type { Boat } from '../settings.ts';
import { addRow, addSums, noSums, type Sums, solve } from './linear.ts';

/** The antenna at one moment at anchor: metres from the mark, and the true heading. */
export interface LyingSample {
  at: number;
  east: number;
  north: number;
  heading: number;
}

/** Within so many seconds the cable's length over the bottom is taken as the same but for what the fit leaves over. */
const WINDOW = 300;
const ROUNDS = 4;
/** How far mark and offset to starboard may be wrong, metres; weak, so that she who lies still tells nothing. */
const PRIOR = { aft: 15, starboard: 2, mark: 8 };
/** Errors of fixes and cable hang together over about so many seconds. */
const CORRELATED = 30;
const GROUPS = 10;
/** Least time, seconds. */
const LEAST = 3600;
/** What the tension of the cable, which changes with the sheer, does to the estimate, metres: as seen on simulated nights (docs/setup.md). */
const FLOOR = 1.5;
/** Scatter of the distance that is left over, metres: more, and she does not hang on a cable whose end stays. */
const MOST_NOISE = 1;

interface AntennaFit {
  estimate?: Estimate;
  unknown?: string;
}

/**
 * How far the antenna is aft of the roller, from her own sheer. While she sheers, the roller keeps its distance from the anchor (but
 * for the spring of the cable) and everything abaft of it does not: the offset is the one with which the distances come out most
 * alike within five minutes. Least squares for the offset, a correction of the mark and the offset to starboard (which takes up a
 * constant error of the heading), by Gauss–Newton; sigma by leaving out a tenth of the time, ten times over (jackknife).
 */
export function fitAntenna(samples: readonly LyingSample[], told: Boat['antenna']): AntennaFit {
  const span = samples.length < 2 ? 0 : samples.at(-1)!.at - samples[0]!.at;
  if (span < LEAST) return { unknown: 'At anchor with a heading for less than an hour: too short to say.' };
  const windows = windowsOf(samples);
  const first = [told.aftOfRoller, told.toStarboard, 0, 0];
  let at = [...first];
  let parts: Sums[] = [];
  let noise = 1;
  for (let round = 0; round < ROUNDS; round++) {
    const built = windows.map((window) => linearised(window, at));
    parts = built.map(({ sums }) => sums);
    const count = built.reduce((sum, { n }) => sum + n, 0);
    noise = Math.max(0.05, Math.sqrt(built.reduce((sum, { left }) => sum + left, 0) / count));
    const moved = solveWith(parts, at, first, weightOf(noise, span / samples.length));
    if (!moved) return { unknown: SHEER };
    at = at.map((value, i) => value + moved[i]!);
  }
  if (noise > MOST_NOISE) return { unknown: LOOSE };
  const weight = weightOf(noise, span / samples.length);
  const without = Array.from({ length: GROUPS }, (_, group) => {
    const kept = parts.filter((_, i) => Math.floor((i * GROUPS) / parts.length) !== group);
    return (solveWith(kept, at, first, weight)?.[0] ?? Number.NaN) + at[0]!;
  });
  const mean = without.reduce((sum, value) => sum + value, 0) / GROUPS;
  const spread = without.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const sigma = Math.hypot(FLOOR, Math.sqrt(((GROUPS - 1) / GROUPS) * spread));
  if (!(sigma < MOST_SIGMA)) return { unknown: SHEER };
  return { estimate: { value: at[0]!, sigma } };
}

const SHEER = 'She sheers too little, or swings too much like one piece, to tell where the antenna is.';
const LOOSE =
  'Her distance from the anchor changes for other reasons too (slack cable, a stream, a dragging anchor): no estimate.';
const MOST_SIGMA = 2.5;

const weightOf = (noise: number, every: number): number =>
  1 / (noise * noise * Math.max(1, CORRELATED / every));

function solveWith(
  parts: readonly Sums[],
  at: readonly number[],
  first: readonly number[],
  weight: number,
): number[] | undefined {
  const all = noSums(4);
  for (const part of parts) addSums(all, part, weight);
  [PRIOR.aft, PRIOR.starboard, PRIOR.mark, PRIOR.mark].forEach((sigma, i) => {
    all.square[i]![i]! += 1 / (sigma * sigma);
    all.right[i]! += (first[i]! - at[i]!) / (sigma * sigma);
  });
  return solve(all.square, all.right);
}

function windowsOf(samples: readonly LyingSample[]): LyingSample[][] {
  const windows: LyingSample[][] = [];
  for (const sample of samples) {
    const open = windows.at(-1);
    if (open && sample.at - open[0]!.at < WINDOW) open.push(sample);
    else windows.push([sample]);
  }
  return windows.filter((window) => window.length >= 30);
}

/** One window about the present values [aft, starboard, mark east, mark north]: its mean is taken out of every column. */
function linearised(
  window: readonly LyingSample[],
  at: readonly number[],
): { sums: Sums; left: number; n: number } {
  const rows = window.map(({ east, north, heading }) => {
    const [sin, cos] = [Math.sin(radians(heading)), Math.cos(radians(heading))];
    const e = east + at[0]! * sin - at[1]! * cos - at[2]!;
    const n = north + at[0]! * cos + at[1]! * sin - at[3]!;
    const distance = Math.max(1, Math.hypot(e, n));
    const [ue, un] = [e / distance, n / distance];
    return [ue * sin + un * cos, -(ue * cos - un * sin), -ue, -un, distance];
  });
  const means = [0, 1, 2, 3, 4].map((i) => rows.reduce((sum, row) => sum + row[i]!, 0) / rows.length);
  const sums = noSums(4);
  let left = 0;
  for (const row of rows) {
    const [d, p, e, n, distance] = row.map((value, i) => value - means[i]!) as [
      number,
      number,
      number,
      number,
      number,
    ];
    addRow(sums, [d, p, e, n], -distance);
    left += distance * distance;
  }
  return { sums, left, n: rows.length };
}
