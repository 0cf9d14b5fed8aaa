import { z } from 'zod';
import { FOOT, KILOMETRE_PER_HOUR, KNOT, MILE_PER_HOUR } from '../../shared/quantities/units.ts';

/**
 * Numbers with an optional unit, as people write them in hawse.yaml: `length: 12.8`, `length: 42 ft`, `windAbove: 25 kn`.
 * Without a unit they are SI. Each kind of measure knows its units; the first is the one that is meant without any.
 */
const UNITS = {
  length: { m: 1, cm: 0.01, mm: 0.001, ft: FOOT, in: FOOT / 12 },
  speed: { 'm/s': 1, kn: KNOT, 'km/h': KILOMETRE_PER_HOUR, mph: MILE_PER_HOUR },
  angle: { deg: 1, '°': 1 },
  area: { m2: 1, 'm²': 1, ft2: FOOT * FOOT, 'ft²': FOOT * FOOT },
  massPerLength: { 'kg/m': 1, 'lb/ft': 0.45359237 / FOOT },
  mass: { kg: 1, t: 1000, lb: 0.45359237 },
  force: { N: 1, kN: 1000, lbf: 4.4482216 },
  duration: { s: 1, min: 60, h: 3600 },
  storage: { B: 1, MB: 1e6, GB: 1e9, TB: 1e12 },
} as const;

type Kind = keyof typeof UNITS;
const FORM = /^([-+]?\d+(?:\.\d+)?)\s*(\S*)$/;

/** A zod schema for one kind of measure: a number, or text with a unit; the result is SI (degrees for angles) within min..max. */
export function measure(kind: Kind, { min, max }: { min: number; max: number }) {
  const units: Readonly<Record<string, number>> = UNITS[kind];
  const names = Object.keys(units);
  const base = names[0] ?? '';
  const allowed = `a number of ${base} from ${min} to ${max}, or text with a unit: ${names.join(', ')}`;
  return z
    .union([z.number(), z.string()], { error: `expected ${allowed}` })
    .transform((written, context) => {
      const form = typeof written === 'number' ? undefined : FORM.exec(written.trim());
      const unit = form?.[2] || base;
      const factor = Object.hasOwn(units, unit) ? units[unit] : undefined;
      const value = typeof written === 'number' ? written : Number(form?.[1]) * (factor ?? Number.NaN);
      if (!(value >= min && value <= max)) {
        context.addIssue({ code: 'custom', message: `${JSON.stringify(written)} is not ${allowed}` });
        return z.NEVER;
      }
      return value;
    })
    .meta({ description: allowed });
}
