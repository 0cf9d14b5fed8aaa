import type { FastifyRequest } from 'fastify';
import type { Standing } from './access.ts';
import { Problem } from './problem.ts';

/** A name as others see it: no control characters, no odd spaces, not endless. */
export function cleanName(name: string): string {
  return name
    .replace(/[\p{C}\p{Z}]+/gu, ' ')
    .trim()
    .slice(0, 40);
}

const authors = new WeakMap<FastifyRequest, string>();

/**
 * Notes who asks: the name of the key that is borne, since nobody may sign with another's name. From this computer without
 * a key: the name in the header `hawse-name` (percent-encoded UTF-8), else "this computer".
 */
export function sign(request: FastifyRequest, { key }: Standing): void {
  const told = request.headers['hawse-name'];
  const name = typeof told === 'string' ? decode(told) : '';
  authors.set(request, key?.name ?? (name || 'this computer'));
}

/** Who asks, for the journal and the pages. Only what went through the check of roles may change anything. */
export function authorOf(request: FastifyRequest): string {
  const author = authors.get(request);
  if (author === undefined) throw new Error('a command did not pass the check of roles');
  return author;
}

function decode(told: string): string {
  try {
    return cleanName(decodeURIComponent(told));
  } catch {
    const detail = 'expected a name in percent-encoded UTF-8, as encodeURIComponent makes it';
    throw new Problem('not-valid', `hawse-name: ${detail}`, {
      errors: [{ in: 'header', path: 'hawse-name', detail }],
    });
  }
}
