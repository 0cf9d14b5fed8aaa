import { X509Certificate } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Finding, fault, good, look } from './finding.ts';

const DAY_MS = 86_400_000;
/** As hawse does it: server/tls/keep.ts. */
const RENEWED_BEFORE_DAYS = 30;

/** The boat's own certificate for https, as it lies in the data folder; `now` is UNIX milliseconds. */
export function checkCertificate(data: string, isWanted: boolean, now: number): Finding[] {
  const what = 'certificate';
  if (!isWanted)
    return [
      look(
        what,
        'https is off (server.tls: false)',
        'phones keep fewer alarms awake without it: docs/https.md',
      ),
    ];
  const leaf = read(join(data, 'tls', 'leaf.pem'));
  const authority = read(join(data, 'tls', 'authority.pem'));
  if (leaf === 'missing' || authority === 'missing')
    return [good(what, 'none yet: it is made at the first start')];
  const anew =
    'nothing for the certificate: hawse makes it anew at the next start; the authority anew means that phones trust it again (page /trust)';
  if (typeof leaf === 'string' || typeof authority === 'string')
    return [
      look(
        what,
        `a file in ${join(data, 'tls')} cannot be read (${typeof leaf === 'string' ? leaf : authority})`,
        anew,
      ),
    ];
  const ends = Date.parse(authority.validTo);
  const findings: Finding[] = [];
  if (Date.parse(leaf.validFrom) > now)
    findings.push(
      fault(
        what,
        `it is valid from ${day(Date.parse(leaf.validFrom))} only: the clock is wrong`,
        'set the clock',
      ),
    );
  if (ends - now < RENEWED_BEFORE_DAYS * DAY_MS)
    findings.push(
      fault(
        what,
        `the boat’s authority ends on ${day(ends)}`,
        'start hawse: it makes a new one, and every phone has to trust it again (page /trust)',
      ),
    );
  else if (Date.parse(leaf.validTo) < now)
    findings.push(
      look(
        what,
        `it ended on ${day(Date.parse(leaf.validTo))}`,
        'start hawse: it renews it, phones need do nothing',
      ),
    );
  else
    findings.push(
      good(
        what,
        `valid until ${day(Date.parse(leaf.validTo))}, renewed by itself; names: ${(leaf.subjectAltName ?? '').replace(/DNS:|IP Address:/g, '')}`,
      ),
    );
  return findings;
}

function read(file: string): X509Certificate | string {
  if (!existsSync(file)) return 'missing';
  try {
    return new X509Certificate(readFileSync(file));
  } catch (error) {
    return (error as Error).message;
  }
}

const day = (at: number): string => new Date(at).toISOString().slice(0, 10);
