import type { TrackFix } from '../points.ts';
import { type Exported, isoTime } from './exported.ts';

type Cell = string | undefined;
const digits = (value: number | undefined, count: number): Cell => value?.toFixed(count);

/** Columns: the unit stands in the header; an empty field is unknown. */
const COLUMNS: readonly [header: string, cell: (fix: TrackFix) => Cell][] = [
  ['time (ISO 8601 UTC)', ({ at }) => isoTime(at)],
  ['latitude of bow roller (deg WGS-84)', ({ lat }) => digits(lat, 8)],
  ['longitude of bow roller (deg WGS-84)', ({ lon }) => digits(lon, 8)],
  ['position doubtful (0 or 1)', ({ doubtful }) => (doubtful ? '1' : '0')],
  ['distance to mark (m)', ({ distance }) => digits(distance, 2)],
  ['bearing of mark (deg true)', ({ bearing }) => digits(bearing, 1)],
  ['heading (deg true)', ({ heading }) => digits(heading, 1)],
  ['depth (m)', ({ depth }) => digits(depth, 2)],
  ['wind speed over ground (m/s)', ({ wind }) => digits(wind?.speed, 2)],
  ['wind from (deg true)', ({ wind }) => digits(wind?.from, 1)],
  ['stream drift (m/s)', ({ stream }) => digits(stream?.drift, 2)],
  ['stream set (deg true)', ({ stream }) => digits(stream?.set, 1)],
  ['reach of cable (m)', ({ cable }) => digits(cable?.reach, 2)],
  ['cable state (slack fair taut)', ({ cable }) => cable?.state],
  ['anchor moved (m)', ({ anchor }) => digits(anchor?.moved, 2)],
  ['anchor moved one sigma (m)', ({ anchor }) => digits(anchor?.sigma, 2)],
  ['probability that she drags (0 to 1)', ({ anchor }) => digits(anchor?.probability, 3)],
];

/** CSV (RFC 4180): one line a fix. No field needs quotes: none holds a comma, a quote or a line end. */
export async function* csv({ fixes }: Exported): AsyncGenerator<string> {
  yield `${COLUMNS.map(([header]) => header).join(',')}\r\n`;
  for await (const fix of fixes) yield `${COLUMNS.map(([, cell]) => cell(fix) ?? '').join(',')}\r\n`;
}
