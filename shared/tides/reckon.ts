import { harmonicTide } from '../water/tide/harmonic.ts';
import { heightByTable } from '../water/tide/height.ts';
import type { TideTold, TideView } from './view.ts';

/** Heights reckoned ahead, so that a second's height costs nothing: plain data. */
export interface Reckoned {
  curve: TideView['curve'];
  turns: TideView['turns'];
  /** Why it does not reach the present, or ends early. */
  unknown?: string;
}

/** Straight between heights ten minutes apart is wrong by 2 mm for a range of 4 m (h″Δt²/8). */
export const STEP = 600;
const BEFORE = 1 * 3600;
const AHEAD = 25 * 3600;

/** The tide from an hour ago to a day ahead, on the round ten minutes. */
export function reckon(told: TideTold, at: number): Reckoned {
  const from = Math.floor((at - BEFORE) / STEP) * STEP;
  const count = Math.ceil((BEFORE + AHEAD) / STEP);
  return told.harmonic ? byHarmonics(told.harmonic, from, count) : byTable(told.turns ?? [], from, count, at);
}

function byHarmonics(harmonic: NonNullable<TideTold['harmonic']>, from: number, count: number): Reckoned {
  const tide = harmonicTide(harmonic.constituents, harmonic.meanLevel);
  if (tide.state === 'refused')
    return { curve: { from, step: STEP, heights: [] }, turns: [], unknown: tide.reason };
  const heights = Array.from({ length: count + 1 }, (_, i) => tide.height(from + i * STEP));
  return { curve: { from, step: STEP, heights }, turns: tide.turns(from, from + count * STEP) };
}

/** A table says nothing outside its first and last water: the curve begins and ends there. */
function byTable(told: NonNullable<TideTold['turns']>, from: number, count: number, now: number): Reckoned {
  const heights: number[] = [];
  let start = from;
  let unknown: string | undefined;
  for (let i = 0; i <= count; i++) {
    const at = from + i * STEP;
    const found = heightByTable(told, at);
    if (found.state === 'known') {
      if (heights.length === 0) start = at;
      heights.push(found.height);
    } else if (heights.length > 0) break;
    else if (at >= now - STEP) {
      unknown =
        found.reason === 'before-table'
          ? 'The first water of the table is still to come: type in the one before it.'
          : 'The table has ended: type in the next high and low waters.';
    }
  }
  const sorted = [...told].sort((a, b) => a.at - b.at);
  const turns = sorted.map(({ at, height }, i) => ({
    at,
    height,
    high: height > (sorted[i + 1] ?? sorted[i - 1])!.height,
  }));
  const end = from + count * STEP;
  return {
    curve: { from: start, step: STEP, heights },
    turns: turns.filter(({ at }) => at >= from && at <= end),
    ...(unknown === undefined ? {} : { unknown }),
  };
}

/** Height at a time by a reckoned curve, m; undefined where it is not known. */
export function heightOn({ from, step, heights }: TideView['curve'], at: number): number | undefined {
  const place = (at - from) / step;
  const index = Math.floor(place);
  const before = heights[index];
  const after = heights[index + 1];
  if (before === undefined) return undefined;
  if (after === undefined) return place === index ? before : undefined;
  return before + (after - before) * (place - index);
}
