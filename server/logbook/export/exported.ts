import type { Night } from '../../../shared/logbook/night.ts';
import type { TrackFix } from '../points.ts';

/** A night and its track, to be written in some format; pieces of text in turn, so that no file has to fit into memory. */
export interface Exported {
  night: Night;
  /** Words on what the track is when it is not every fix. */
  remark?: string;
  fixes: AsyncIterable<TrackFix>;
}

/** Without a fix for longer than this the track is broken, seconds: no line is drawn where nothing was known. */
export const BREAK = 30;

/** ISO 8601 in UTC, to the millisecond. */
export const isoTime = (at: number): string => new Date(Math.round(at * 1000)).toISOString();

/** What the night is called. */
export const title = ({ summary: { id, place, origin, simulated } }: Pick<Night, 'summary'>): string =>
  [
    place ?? 'Anchorage',
    id,
    ...(simulated === undefined ? [] : ['SIMULATED']),
    ...(origin === 'import' ? ['imported'] : []),
  ].join(', ');

/** Where she was at `at`, by the samples; undefined when none is near enough in time. */
export function placeAt(strips: Night['strips'], at: number): { lat: number; lon: number } | undefined {
  let best: { lat: number; lon: number; off: number } | undefined;
  for (const sample of strips) {
    const off = Math.abs(sample.at - at);
    if (sample.lat === undefined || sample.lon === undefined || off > 60 || (best && off >= best.off))
      continue;
    best = { lat: sample.lat, lon: sample.lon, off };
  }
  return best && { lat: best.lat, lon: best.lon };
}
