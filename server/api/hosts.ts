import type { IncomingHttpHeaders } from 'node:http';
import { isIP } from 'node:net';
import { hostname } from 'node:os';
import { Problem } from './problem.ts';

const HOST = /^(\[[0-9a-f:.]+\]|[^:[\]]+)(?::\d{1,5})?$/;

/**
 * Keeps out pages of other sites. A site that makes its own name point at the boat's address (DNS rebinding) is known by
 * the Host header, one that sends its requests here directly by the Origin header, which browsers always send then.
 * `names`: host names that pages may be opened under beside those of this machine.
 */
export function createHostCheck(names: readonly string[], machine = hostname()) {
  const allowed = new Set(ownNames(names, machine));

  /** Throws a Problem unless the request was meant for this boat and comes from one of its pages, or from no page. */
  return function checkHost(headers: IncomingHttpHeaders): void {
    const host = headers.host?.toLowerCase() ?? '';
    const name = HOST.exec(host)?.[1]?.replace(/^\[|\]$/g, '') ?? '';
    if (!allowed.has(name) && isIP(name) === 0) {
      throw new Problem(
        'other-host',
        `The host "${host.slice(0, 60)}" is none of this boat's: use its IP address, ${[...allowed].join(', ')}. More can be allowed in hawse.yaml under server.names.`,
      );
    }
    const { origin } = headers;
    if (origin !== undefined && hostOf(origin) !== host) {
      throw new Problem(
        'other-site',
        `Only pages of this boat may ask: Origin must be that of http(s)://${host}, or none.`,
      );
    }
  };
}

/** Every name that this computer answers to. */
export function ownNames(names: readonly string[], machine = hostname()): string[] {
  const short = machine.split('.')[0]!;
  return ['localhost', machine, `${machine}.local`, short, `${short}.local`, ...names].map((name) =>
    name.toLowerCase(),
  );
}

export type HostCheck = ReturnType<typeof createHostCheck>;

function hostOf(origin: string): string | undefined {
  try {
    return new URL(origin).host;
  } catch {
    return undefined;
  }
}
