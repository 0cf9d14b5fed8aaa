import type { LatLon } from '../../../shared/quantities/estimate.ts';

/** What a simulated neighbour's transponder says at one moment. SI units, degrees true; undefined: not available. */
export interface Spoken extends LatLon {
  mmsi: number;
  unit: 'A' | 'B';
  sog: number;
  cog: number;
  heading?: number;
  /** Class A only: 0 under way, 1 at anchor, 5 moored. */
  status?: number;
}

/** A field: its value and how many bits it has (ITU-R M.1371-5, annex 8). */
type Field = [value: number, bits: number];

/** A position report as one sentence: message 1 of class A, message 18 of class B. */
export function aisSentence(spoken: Spoken): string {
  const { mmsi, unit, lat, lon, heading, status } = spoken;
  const motion: Field[] = [
    [Math.min(1022, Math.round((spoken.sog * 3600) / 185.2)), 10],
    [1, 1],
    [Math.round(lon * 600_000), 28],
    [Math.round(lat * 600_000), 27],
    [Math.round(spoken.cog * 10) % 3600, 12],
    [heading === undefined ? 511 : Math.round(heading) % 360, 9],
    [30, 6],
  ];
  const fields: Field[] =
    unit === 'A'
      ? [[1, 6], [0, 2], [mmsi, 30], [status ?? 15, 4], [-128, 8], ...motion, [0, 2], [0, 3], [0, 1], [0, 19]]
      : [
          [18, 6],
          [0, 2],
          [mmsi, 30],
          [0, 8],
          ...motion,
          [0, 2],
          [1, 1],
          [0, 1],
          [0, 1],
          [1, 1],
          [0, 1],
          [0, 1],
          [0, 1],
          [0, 20],
        ];
  return sentences(fields)[0]!;
}

/** Name and size: message 5 of class A in two sentences, message 24 of class B in its parts A and B. The antenna stands amidships. */
export function staticSentences(
  mmsi: number,
  unit: 'A' | 'B',
  name: string,
  length: number,
  beam: number,
): string[] {
  const letters: Field[] = [...name.toUpperCase().padEnd(20, '@').slice(0, 20)].map((c) => [
    c.charCodeAt(0) & 63,
    6,
  ]);
  const size: Field[] = [
    [Math.floor(length / 2), 9],
    [Math.ceil(length / 2), 9],
    [Math.floor(beam / 2), 6],
    [Math.ceil(beam / 2), 6],
  ];
  const head = (type: number): Field[] => [
    [type, 6],
    [0, 2],
    [mmsi, 30],
  ];
  if (unit === 'A') {
    const more: Field[] = [[1, 4], [0, 20], [0, 8], ...blanks(20), [0, 1], [0, 1]];
    return sentences([...head(5), [0, 2], [0, 30], ...blanks(7), ...letters, [37, 8], ...size, ...more]);
  }
  return [
    ...sentences([...head(24), [0, 2], ...letters, [0, 8]]),
    ...sentences([...head(24), [1, 2], [36, 8], ...blanks(7), ...blanks(7), ...size, [0, 6]]),
  ];
}

const blanks = (count: number): Field[] => Array.from({ length: count }, () => [0, 6]);

/** Characters of a payload that fit in one sentence. */
const MOST = 56;
/** Parts of one message bear the same digit; the time between two static messages is long enough for one digit per vessel. */
const sequenceOf = (mmsi: number): number => mmsi % 10;

/** The armoured message in as many sentences as it takes. */
function sentences(fields: Field[]): string[] {
  const mmsi = fields[2]![0];
  const bits = fields
    .map(([value, size]) => (value < 0 ? value + 2 ** size : value).toString(2).padStart(size, '0'))
    .join('');
  const fill = (6 - (bits.length % 6)) % 6;
  const six = bits.padEnd(bits.length + fill, '0').match(/.{6}/g) ?? [];
  const payload = six
    .map((one) => String.fromCharCode(Number.parseInt(one, 2) + (Number.parseInt(one, 2) < 40 ? 48 : 56)))
    .join('');
  const total = Math.ceil(payload.length / MOST);
  return Array.from({ length: total }, (_, i) => {
    const part = payload.slice(i * MOST, (i + 1) * MOST);
    const body = `AIVDM,${total},${i + 1},${total > 1 ? sequenceOf(mmsi) : ''},A,${part},${i === total - 1 ? fill : 0}`;
    let sum = 0;
    for (let k = 0; k < body.length; k++) sum ^= body.charCodeAt(k);
    return `!${body}*${sum.toString(16).toUpperCase().padStart(2, '0')}`;
  });
}
