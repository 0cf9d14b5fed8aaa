import type { LatLon } from '../../shared/quantities/estimate.ts';

/** The fields of a sentence with `$`, checksum and nothing else; an undefined field is sent blank. */
export function sentence(talker: string, id: string, fields: (string | number | undefined)[]): string {
  const body = `${talker}${id},${fields.map((field) => field ?? '').join(',')}`;
  let sum = 0;
  for (let i = 0; i < body.length; i++) sum ^= body.charCodeAt(i);
  return `$${body}*${sum.toString(16).toUpperCase().padStart(2, '0')}`;
}

/** Latitude and longitude as ddmm.mm,N,dddmm.mm,E with this many decimals of the minute. */
export function position({ lat, lon }: LatLon, decimals: number): string[] {
  return [
    degreesMinutes(Math.abs(lat), 2, decimals),
    lat < 0 ? 'S' : 'N',
    degreesMinutes(Math.abs(lon), 3, decimals),
    lon < 0 ? 'W' : 'E',
  ];
}

/** Rounded as a whole, so that 59.99996 minutes become the next degree and never 60. */
function degreesMinutes(angle: number, digits: number, decimals: number): string {
  const unit = 10 ** decimals;
  const all = Math.round(angle * 60 * unit);
  const whole = Math.floor(all / (60 * unit));
  const minutes = ((all - whole * 60 * unit) / unit).toFixed(decimals);
  return whole.toString().padStart(digits, '0') + minutes.padStart(decimals === 0 ? 2 : 3 + decimals, '0');
}

/** hhmmss.ss of a UNIX time, cut to hundredths: a clock never shows a moment that has not come. */
export function timeOfDay(at: number): string {
  const hundredths = Math.floor(at * 100 + 1e-4);
  const seconds = Math.floor(hundredths / 100);
  const two = (n: number) => n.toString().padStart(2, '0');
  const [h, m, s] = [Math.floor(seconds / 3600) % 24, Math.floor(seconds / 60) % 60, seconds % 60];
  return `${two(h)}${two(m)}${two(s)}.${two(hundredths % 100)}`;
}

/** Day, month and year of a UNIX time, two, two and four digits. */
export function dateParts(at: number): [string, string, string] {
  const [year, month, day] = new Date(at * 1000).toISOString().slice(0, 10).split('-');
  return [day!, month!, year!];
}

/** An angle with this many decimals, 0 … 359.9. */
export function bearing(angle: number, decimals = 1): string {
  const text = (((angle % 360) + 360) % 360).toFixed(decimals);
  return Number(text) >= 360 ? (0).toFixed(decimals) : text;
}

/** Size and hemisphere of a variation or deviation, east positive. */
export const eastWest = (angle: number): [string, string] => [
  Math.abs(angle).toFixed(1),
  angle < 0 ? 'W' : 'E',
];
