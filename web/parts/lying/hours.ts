import type { TrackPoint } from '../../../shared/watch/view.ts';

/** What the strip draws, as plain figures: one column for so many seconds. Pure. */

export interface Column {
  at: number;
  /** Metres from the mark (the farthest) and the reach of the cable then. */
  distance: number;
  reach: number;
  /** Probability that the anchor moved: the greatest. */
  probability: number;
  wind?: { least: number; most: number };
}

export interface Hours {
  from: number;
  to: number;
  columns: Column[];
}

/** The strip is at least this long, and at most, seconds; so many columns at most. */
const LEAST = 3600;
const MOST = 12 * 3600;
const COLUMNS = 144;

/** Undefined: nothing has been told yet of how she lies. */
export function hoursOf(points: readonly TrackPoint[]): Hours | undefined {
  const to = points.at(-1)?.at;
  const first = points.find(({ lie }) => lie)?.at;
  if (to === undefined || first === undefined) return undefined;
  const from = to - Math.min(MOST, Math.max(LEAST, to - first));
  const step = Math.max(60, (to - from) / COLUMNS);
  const columns = new Map<number, Column>();
  let wind: Column['wind'];
  for (const point of points) {
    if (point.at < from) continue;
    wind = widened(wind, point.wind);
    if (!point.lie) continue;
    const key = Math.floor((point.at - from) / step);
    const before = columns.get(key);
    const { distance, reach, probability } = point.lie;
    columns.set(key, {
      at: before?.at ?? point.at,
      distance: Math.max(before?.distance ?? 0, distance),
      reach: Math.max(before?.reach ?? 0, reach),
      probability: Math.max(before?.probability ?? 0, probability),
      ...(wind && { wind: before?.wind ? widened(widened(before.wind, wind.least), wind.most)! : wind }),
    });
    wind = undefined;
  }
  return { from, to, columns: [...columns.values()] };
}

function widened(range: Column['wind'], value: number | undefined): Column['wind'] {
  if (value === undefined) return range;
  return range
    ? { least: Math.min(range.least, value), most: Math.max(range.most, value) }
    : { least: value, most: value };
}
