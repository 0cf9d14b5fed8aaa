import type { z } from 'zod';
import type { Fault } from '../../shared/messages.ts';

/** Every fault that a schema found, each with the place it stands at and what is allowed there. */
export function faultsOf(where: Fault['in'], issues: readonly z.core.$ZodIssue[]): Fault[] {
  return issues.flatMap((issue) => {
    if (issue.code !== 'unrecognized_keys') return [say(issue.path, issue.message)];
    return issue.keys.map((key) =>
      say([...issue.path, key], `unknown member "${shorten(key)}", ${issue.message}`),
    );
  });

  function say(path: PropertyKey[], detail: string): Fault {
    return { in: where, path: shorten(path.map(String).join('.')), detail };
  }
}

/** One line for a person out of all faults. */
export function inWords(faults: readonly Fault[]): string {
  return faults.map(({ in: where, path, detail }) => `${path === '' ? where : path}: ${detail}`).join('; ');
}

/** What the sender wrote comes back shortened: an answer must not be as long as the abuse. */
function shorten(text: string): string {
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}
