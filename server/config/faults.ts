import { z } from 'zod';

/** A file that says something hawse cannot use; the message names file, line, what is wrong and what is allowed. */
export class ConfigError extends Error {
  override name = 'ConfigError';
}

const WANTED: Partial<Record<string, string>> = {
  array: 'a list',
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
};

/** What is wrong with a value of the wrong kind and what is allowed, in a person's words; `undefined`: zod's own will do. */
export function inPlainWords(issue: z.core.$ZodRawIssue): string | undefined {
  if (issue.code === 'unrecognized_keys' && isObject(issue.inst)) return `allowed: ${keysOf(issue.inst)}`;
  if (issue.code !== 'invalid_type') return undefined;
  const wanted = isObject(issue.inst)
    ? `keys of its own: ${keysOf(issue.inst)}`
    : WANTED[issue.expected as string];
  if (wanted === undefined) return undefined;
  return issue.input === undefined ? `missing; expected ${wanted}` : `expected ${wanted}`;
}

const isObject = (schema: unknown): schema is z.ZodObject => schema instanceof z.ZodObject;
const keysOf = ({ shape }: z.ZodObject): string => Object.keys(shape).join(', ');

/** Every fault of a zod check made with `inPlainWords`, one a line: place, what is wrong, what is allowed. `lineOf` finds the line of a path. */
export function describeFaults(
  file: string,
  error: z.ZodError,
  lineOf: (path: PropertyKey[]) => number | undefined = () => undefined,
): string {
  return error.issues.flatMap((issue) => describe(issue, [])).join('\n');

  function describe(issue: z.core.$ZodIssue, base: PropertyKey[]): string[] {
    const path = [...base, ...issue.path];
    if (issue.code === 'unrecognized_keys') {
      return issue.keys.map((key) => say([...path, key], `unknown key "${key}"; ${issue.message}`));
    }
    if (issue.code === 'invalid_union' && issue.errors.length > 0) {
      const nearest = issue.errors.reduce((a, b) => (worst(b) < worst(a) ? b : a));
      if (nearest.some((inner) => inner.path.length > 0 || inner.code === 'unrecognized_keys')) {
        return [say(path, issue.message), ...nearest.flatMap((inner) => describe(inner, path))];
      }
    }
    return [say(path, issue.message)];
  }

  function say(path: PropertyKey[], message: string): string {
    const line = lineOf(path);
    const place = line === undefined ? file : `${file}:${line}`;
    return `${place}: ${path.length > 0 ? `${path.map(String).join('.')}: ` : ''}${message}`;
  }
}

/** Of a union's alternatives the one with the fewest missing members is most likely meant. */
function worst(issues: z.core.$ZodIssue[]): number {
  return issues.length + issues.filter((issue) => issue.code === 'invalid_type').length * 10;
}
