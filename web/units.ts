import { FOOT, fromKnots } from '../shared/quantities/units.ts';

/**
 * The boat's sentences (report, alerts, notes) carry their quantities in metres and knots, written by one catalogue in
 * `shared/`: a number, an optional "± number", a space, "m" or "kn". A screen that is set to other units gets the same
 * sentences with those quantities converted, to as many decimals as they had: never finer than the boat said.
 */
export interface Units {
  length: 'm' | 'ft';
  speed: 'kn' | 'm/s';
}

/** "m" of metres, not of min, mm, m/s or a.m.; "kn" alone. A number may stand before a ±, or be the first of "3 to 5 m". */
const QUANTITY = /([−-]?\d+(?:\.\d+)?)((?: ± | to |–)\d+(?:\.\d+)?)?([ \u00a0])(m|kn)(?![\p{L}\d/²])/gu;
const NUMBER = /\d+(?:\.\d+)?/;

export function inUnits(text: string, { length, speed }: Units): string {
  return text.replace(
    QUANTITY,
    (whole, first: string, second: string | undefined, space: string, unit: string) => {
      const to = unit === 'm' ? length : speed;
      if (to === unit) return whole;
      const convert = (number: string) => converted(number, unit);
      return `${first.replace(NUMBER, convert)}${second?.replace(NUMBER, convert) ?? ''}${space}${to}`;
    },
  );
}

function converted(number: string, from: string): string {
  const decimals = number.split('.')[1]?.length ?? 0;
  // Whole knots are coarser than whole metres a second: a decimal keeps what the boat said.
  if (from === 'kn') return fromKnots(Number(number)).toFixed(Math.max(1, decimals));
  return (Number(number) / FOOT).toFixed(decimals);
}
