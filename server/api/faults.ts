import type { z } from 'zod';
import type { Fault } from '../../shared/messages.ts';

type Issue = z.core.$ZodIssue;

/** Every fault that a schema found, each with the place it stands at and what is allowed there. */
export function faultsOf(where: Fault['in'], issues: readonly Issue[]): Fault[] {
  return issues.flatMap((issue) => describe(issue, []));

  function describe(issue: Issue, base: PropertyKey[]): Fault[] {
    const path = [...base, ...issue.path];
    if (issue.code === 'unrecognized_keys')
      return issue.keys.map((key) => say([...path, key], `unknown member "${shorten(key)}"`));
    if (issue.code === 'invalid_union' && issue.errors.length > 0) {
      const nearest = issue.errors.reduce((a, b) => (distance(b) < distance(a) ? b : a));
      return [say(path, issue.message), ...nearest.flatMap((inner) => describe(inner, path))];
    }
    return [say(path, issue.message)];
  }

  function say(path: PropertyKey[], detail: string): Fault {
    return { in: where, path: shorten(path.map(String).join('.')), detail };
  }
}

/** One line for a person out of all faults. */
export function inWords(faults: readonly Fault[]): string {
  return faults.map(({ in: where, path, detail }) => `${path === '' ? where : path}: ${detail}`).join('; ');
}

/** How far the value is from one form of a union: members that the form does not know weigh most. */
function distance(issues: readonly Issue[]): number {
  return issues.reduce(
    (sum, issue) => sum + (issue.code === 'unrecognized_keys' ? 10 * issue.keys.length : 1),
    0,
  );
}

/** What the sender wrote comes back shortened: an answer must not be as long as the abuse. */
function shorten(text: string): string {
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}
