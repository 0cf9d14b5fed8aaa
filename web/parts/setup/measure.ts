import { FOOT } from '../../../shared/quantities/units.ts';

/** Lengths as hawse.yaml may have them. */
const UNITS: Record<string, number> = { m: 1, cm: 0.01, mm: 0.001, ft: FOOT, in: FOOT / 12 };
const FORM = /^([-+]?\d+(?:\.\d+)?)\s*([a-z]*)$/;

/** What is typed with a comma or a typographic minus, as the file wants it. */
export const tidied = (text: string): string =>
  text
    .trim()
    .replace('−', '-')
    .replace(/^([-+]?\d+),(\d+)/, '$1.$2');

/** Metres of a length as typed; without a unit in the one that is written in the file. Undefined: no length. */
export function metresOf(text: string, written: string | undefined): number | undefined {
  const form = FORM.exec(tidied(text));
  if (!form) return undefined;
  const unit = form[2] || FORM.exec(written ?? '')?.[2] || 'm';
  const factor = Object.hasOwn(UNITS, unit) ? UNITS[unit] : undefined;
  return factor === undefined ? undefined : Number(form[1]) * factor;
}
