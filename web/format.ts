import { FOOT, fromKnots, toKnots } from '../shared/quantities/units.ts';
import { clockOffset } from './live.ts';
import { lengthUnit, speedUnit } from './prefs.ts';

/** SI in, what this screen's units and people want to read out. The one place where figures become text. */

export interface Text {
  figure: string;
  unit: string;
}

const fixed = (value: number, digits: number): string => {
  const text = value.toFixed(digits);
  return Number(text) === 0 ? (0).toFixed(digits) : text.replace('-', '−');
};

/** Metres as a distance: whole figures, since a fix is no better; tenths only when asked (depths in metres). */
export function length(metres: number, tenths = false): Text {
  if (lengthUnit.value === 'ft') return { figure: fixed(metres / FOOT, 0), unit: 'ft' };
  return { figure: fixed(metres, tenths ? 1 : 0), unit: 'm' };
}

/** m/s as wind (whole knots) or as the boat's or the stream's speed (tenths). */
export function speed(metresPerSecond: number, tenths = false): Text {
  if (speedUnit.value === 'm/s') return { figure: fixed(metresPerSecond, 1), unit: 'm/s' };
  return { figure: fixed(toKnots(metresPerSecond), tenths ? 1 : 0), unit: 'kn' };
}

export const joined = ({ figure, unit }: Text): string => `${figure}\u00a0${unit}`;

/**
 * How far the truth may lie from an estimate: two standard deviations each way, as the boat's own report tells it; rounded up,
 * since no estimate is exact. `spread` of a length in metres, `speedSpread` of a speed in m/s.
 */
export const spread = (sigma: number): string =>
  `± ${Math.ceil(2 * sigma * (lengthUnit.value === 'ft' ? 1 / FOOT : 1))}\u00a0${lengthUnit.value}`;

export const speedSpread = (sigma: number): string =>
  `± ${(Math.ceil(20 * (speedUnit.value === 'kn' ? toKnots(sigma) : sigma)) / 10).toFixed(1)}\u00a0${speedUnit.value}`;

/** A direction in three figures, as spoken on board. */
export function bearing(degrees: number): string {
  return `${String(Math.round(degrees) % 360).padStart(3, '0')}°`;
}

/** Seconds as people say an age: 4 s, 3 min, 2 h; never younger than it is. */
export function age(seconds: number): string {
  const whole = Math.max(1, Math.ceil(seconds));
  if (whole < 100) return `${whole}\u00a0s`;
  if (whole < 6000) return `${Math.ceil(whole / 60)}\u00a0min`;
  return `${Math.ceil(whole / 3600)}\u00a0h`;
}

/** Made once: making one takes a slow phone milliseconds. Made anew when the device has come into another time zone. */
function formatter(options: Intl.DateTimeFormatOptions): () => Intl.DateTimeFormat {
  let made: Intl.DateTimeFormat | undefined;
  let madeIn: number | undefined;
  return () => {
    const zoneNow = new Date().getTimezoneOffset();
    if (!made || zoneNow !== madeIn) made = new Intl.DateTimeFormat('en-GB', options);
    madeIn = zoneNow;
    return made;
  };
}

const HOURS: Intl.DateTimeFormatOptions = { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' };
const hours = formatter(HOURS);
const hoursWithSeconds = formatter({ ...HOURS, second: '2-digit' });
const zoneName = formatter({ timeZoneName: 'short' });
const dayAndMonth = formatter({ day: 'numeric', month: 'short' });

/** A moment of the boat's as a date of her receiver's UTC, which is right where her computer's clock is not. */
const dated = (unixSeconds: number): Date => new Date((unixSeconds + clockOffset.value) * 1000);

/** Clock time on board of a moment that the boat told, e.g. 03:12. */
export const clock = (unixSeconds: number): string => hours().format(dated(unixSeconds));

export const clockWithSeconds = (unixSeconds: number): string =>
  hoursWithSeconds().format(dated(unixSeconds));

/** Clock time of a moment that this device noted itself, ms. */
export const ownClock = (ms: number): string => hours().format(new Date(ms));

/** The zone that the clock times are in, e.g. CEST. */
export const zone = (unixSeconds: number): string =>
  zoneName()
    .formatToParts(dated(unixSeconds))
    .find((part) => part.type === 'timeZoneName')?.value ?? '';

export const date = (unixSeconds: number): string => dayAndMonth().format(dated(unixSeconds));

const half = (degrees: number, positive: string, negative: string, width: number): string => {
  const thousandths = Math.round(Math.abs(degrees) * 60_000);
  const whole = Math.floor(thousandths / 60_000);
  const minutes = ((thousandths % 60_000) / 1000).toFixed(3).padStart(6, '0');
  return `${String(whole).padStart(width, '0')}° ${minutes}′ ${degrees < 0 ? negative : positive}`;
};

/** Degrees and decimal minutes, as on a chart. */
export const position = (lat: number, lon: number): string =>
  `${half(lat, 'N', 'S', 2)}\u2003${half(lon, 'E', 'W', 3)}`;

/** A number that a person typed, comma or point; undefined: no number. */
export function typed(text: string): number | undefined {
  const clean = text.trim().replace(',', '.').replace('−', '-');
  const value = Number(clean);
  return clean === '' || !Number.isFinite(value) ? undefined : value;
}

/** A latitude or longitude as typed: "16 30.5 S", "16°30′30″S" or "-16.508"; undefined: not understood. */
export function typedAngle(text: string): number | undefined {
  const parts = text.replaceAll(',', '.').match(/\d+(?:\.\d+)?/g) ?? [];
  const understood = /^[\s\d.,°º'′"″:NSEWnsew+−-]+$/.test(text) && parts.length >= 1 && parts.length <= 3;
  if (!understood) return undefined;
  const size = parts.reduce((sum, part, i) => sum + Number(part) / 60 ** i, 0);
  return /[SWsw]|^\s*[−-]/.test(text) ? -size : size;
}

export const metresTyped = (value: number): number => (lengthUnit.value === 'ft' ? value * FOOT : value);
export const speedTyped = (value: number): number => (speedUnit.value === 'kn' ? fromKnots(value) : value);

/** An SI value as the text that an input field starts with, at most one decimal. */
export const lengthField = (metres: number | undefined): string =>
  metres === undefined ? '' : String(round1(lengthUnit.value === 'ft' ? metres / FOOT : metres));
export const speedField = (metresPerSecond: number | undefined): string =>
  metresPerSecond === undefined
    ? ''
    : String(round1(speedUnit.value === 'kn' ? toKnots(metresPerSecond) : metresPerSecond));

const round1 = (value: number): number => Math.round(value * 10) / 10;
