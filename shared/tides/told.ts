import { harmonicTide } from '../water/tide/harmonic.ts';
import type { TideTold } from './view.ts';

const MOST_TURNS = 120;
/** Two turns of a tide are no nearer than this, and no farther apart, seconds: diurnal tides take 12.4 h from high to low, the neaps of mixed ones up to 18 h. */
const APART = { least: 1.5 * 3600, most: 20 * 3600 };
/** Spring range of the Bay of Fundy is 16 m; heights beyond are mistyped, m. */
const HEIGHT = { least: -5, most: 20 };

/** What is wrong with a tide as told, in words for the person who typed it; undefined: nothing. */
export function faultOfTide({ turns, harmonic }: TideTold): string | undefined {
  if ((turns === undefined) === (harmonic === undefined))
    return 'Tell either high and low waters or constituents, one of the two.';
  if (harmonic) {
    const made = harmonicTide(harmonic.constituents, harmonic.meanLevel);
    return made.state === 'refused' ? made.reason : undefined;
  }
  return turns && faultOfTurns(turns);
}

function faultOfTurns(turns: NonNullable<TideTold['turns']>): string | undefined {
  if (turns.length < 2 || turns.length > MOST_TURNS)
    return `From 2 to ${MOST_TURNS} high and low waters are needed; ${turns.length} are given.`;
  const sorted = [...turns].sort((a, b) => a.at - b.at);
  for (const { at, height } of sorted) {
    if (!Number.isFinite(at)) return 'A high or low water has no time.';
    if (!(height >= HEIGHT.least && height <= HEIGHT.most))
      return `A height of ${height} m is not from ${HEIGHT.least} to ${HEIGHT.most} m.`;
  }
  for (let i = 1; i < sorted.length; i++) {
    const gap = sorted[i]!.at - sorted[i - 1]!.at;
    if (gap < APART.least || gap > APART.most)
      return `${(gap / 3600).toFixed(1)} h lie between the waters number ${i} and ${i + 1}; 1.5 to 20 h are possible: is one missing, or a date wrong?`;
    const rises = sorted[i]!.height > sorted[i - 1]!.height;
    if (sorted[i]!.height === sorted[i - 1]!.height)
      return `The waters number ${i} and ${i + 1} have the same height.`;
    const before = sorted[i - 2];
    if (before && rises === sorted[i - 1]!.height > before.height)
      return `High and low water do not take turns at number ${i}: is one missing, or a height wrong?`;
  }
  return undefined;
}
