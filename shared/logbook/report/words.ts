import { toKnots } from '../../quantities/units.ts';
import type { GapKind, NightAlert } from '../night.ts';

/** How an incident report writes figures: SI with knots beside, times in UTC to the second, nothing rounded finer than it was measured. */

const ESCAPES: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text as it may stand in HTML: what people and instruments wrote is never read as markup. */
export const safe = (text: string): string => text.replace(/[&<>"']/g, (sign) => ESCAPES[sign]!);

const iso = (at: number): string => new Date(Math.floor(at) * 1000).toISOString();

export const time = (at: number): string => iso(at).slice(11, 19);
export const moment = (at: number): string => `${iso(at).slice(0, 10)} ${time(at)}`;

/** Seconds in words: 42 s, 38 min 20 s, 9 h 12 min. */
export function lasting(seconds: number): string {
  const whole = Math.round(seconds);
  if (whole < 60) return `${whole} s`;
  if (whole < 3600) return `${Math.floor(whole / 60)} min${whole % 60 ? ` ${whole % 60} s` : ''}`;
  const minutes = Math.round(whole / 60);
  return `${Math.floor(minutes / 60)} h${minutes % 60 ? ` ${minutes % 60} min` : ''}`;
}

export const metres = (value: number): string => `${value.toFixed(1)} m`;
export const windSpeed = (value: number): string =>
  `${toKnots(value).toFixed(0)} kn (${value.toFixed(1)} m/s)`;
export const streamSpeed = (value: number): string => `${toKnots(value).toFixed(1)} kn`;
export const kilonewtons = (value: number): string => `${(value / 1000).toFixed(2)} kN`;

const half = (value: number, positive: string, negative: string, width: number): string => {
  const thousandths = Math.round(Math.abs(value) * 60_000);
  const minutes = ((thousandths % 60_000) / 1000).toFixed(3).padStart(6, '0');
  return `${String(Math.floor(thousandths / 60_000)).padStart(width, '0')}° ${minutes}′ ${value < 0 ? negative : positive}`;
};

export const position = ({ lat, lon }: { lat: number; lon: number }): string =>
  `${half(lat, 'N', 'S', 2)} ${half(lon, 'E', 'W', 3)}`;

export const GAPS: Record<GapKind, string> = {
  silence: 'no sentence from any instrument',
  position: 'no position',
  doubtful: 'position not to be trusted',
  heading: 'no heading',
  wind: 'no wind',
  depth: 'no depth',
};

/** When an alert was first a warning or an alarm: a caution may have grown into it. */
export const loudAt = ({ changes, from }: NightAlert): number =>
  changes.find(({ priority, state }) => priority !== 'caution' && state !== 'normal')?.at ?? from;

/** A table; cells are HTML already. */
export const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  `<table><thead><tr>${head.map((cell) => `<th scope="col">${cell}</th>`).join('')}</tr></thead><tbody>${rows
    .map((row) => `<tr>${row.map((cell) => `<td>${cell}</td>`).join('')}</tr>`)
    .join('')}</tbody></table>`;
