import type { FastifyRequest } from 'fastify';
import { isThisComputer } from './access.ts';
import { Problem } from './problem.ts';

/** A name as others see it: no control characters, no odd spaces, not endless. */
export function cleanName(name: string): string {
  return name
    .replace(/[\p{C}\p{Z}]+/gu, ' ')
    .trim()
    .slice(0, 40);
}

/**
 * Who asks, for the journal and the pages: the name in the header `hawse-name` (percent-encoded UTF-8), else the address.
 */
export function authorOf(request: FastifyRequest): string {
  const told = request.headers['hawse-name'];
  if (typeof told === 'string') {
    const name = decode(told);
    if (name !== '') return name;
  }
  return isThisComputer(request.raw) ? 'this computer' : (request.raw.socket.remoteAddress ?? 'somebody');
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
