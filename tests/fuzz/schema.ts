import fc from 'fast-check';
import type { Chance } from './random.ts';

/** As much of JSON Schema as the documentation of the api uses. */
export interface Schema {
  $ref?: string;
  type?: string | string[];
  enum?: unknown[];
  const?: unknown;
  anyOf?: Schema[];
  oneOf?: Schema[];
  allOf?: Schema[];
  properties?: Record<string, Schema>;
  required?: string[];
  items?: Schema;
  pattern?: string;
  minimum?: number;
  maximum?: number;
}

const WEIRD: readonly unknown[] = [
  null,
  true,
  false,
  0,
  -0,
  -1,
  1e308,
  -1e308,
  1e-320,
  2 ** 53,
  0.1,
  '',
  ' ',
  '0',
  'NaN',
  '__proto__',
  'constructor',
  '\u0000',
  '\u202e',
  '€',
  'x'.repeat(300),
  [],
  [[]],
  {},
  { a: 1 },
  { __proto__: null },
  [null],
  '../../etc/passwd',
  "' or 1=1 --",
  '<script>',
  '%00',
  '\ud800',
];

/** A value that fits the schema, more or less often: each part of it may be replaced, left out or added to. */
export function createMaker(chance: Chance, schemas: Record<string, Schema>, seed: number) {
  const { below, pick, oneIn } = chance;
  const matching = new Map<string, string[]>();

  function textFor(pattern: string): string {
    let samples = matching.get(pattern);
    if (!samples) {
      try {
        samples = fc.sample(fc.stringMatching(new RegExp(pattern)), { numRuns: 50, seed });
      } catch {
        samples = [pattern];
      }
      matching.set(pattern, samples);
    }
    return pick(samples);
  }

  function fitting(schema: Schema, damage: number, depth = 0): unknown {
    if (depth > 12 || (damage > 0 && oneIn(damage))) return pick(WEIRD);
    const again = (inner: Schema) => fitting(inner, damage, depth + 1);
    if (schema.$ref) return again(schemas[schema.$ref.split('/').at(-1)!] ?? {});
    if ('const' in schema) return schema.const;
    if (schema.enum) return pick(schema.enum);
    const union = schema.anyOf ?? schema.oneOf;
    if (union) return again(pick(union));
    if (schema.allOf) return again(pick(schema.allOf));
    const type = Array.isArray(schema.type) ? pick(schema.type) : schema.type;
    switch (type) {
      case 'object': {
        const made: Record<string, unknown> = {};
        for (const [name, inner] of Object.entries(schema.properties ?? {}))
          if (schema.required?.includes(name) ? !oneIn(40) : oneIn(2)) made[name] = again(inner);
        if (damage > 0 && oneIn(damage)) made[JSON.stringify(pick(WEIRD))] = pick(WEIRD);
        return made;
      }
      case 'array':
        return Array.from({ length: oneIn(50) ? 200 : below(4) }, () => again(schema.items ?? {}));
      case 'string':
        return schema.pattern
          ? textFor(schema.pattern)
          : pick(['a', 'Skipper', '2026-11-25', 'ABCD-EFGH', 'x'.repeat(below(80))]);
      case 'number':
      case 'integer': {
        const { minimum: least = -100, maximum: most = 100 } = schema;
        const value = pick([least, most, least + ((most - least) * below(1000)) / 999, least - 1, most + 1]);
        return type === 'integer' ? Math.round(value) : value;
      }
      case 'boolean':
        return oneIn(2);
      case 'null':
        return null;
      default:
        return pick(WEIRD);
    }
  }
  return fitting;
}
