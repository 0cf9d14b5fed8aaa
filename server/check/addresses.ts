import { createServer } from 'node:net';
import { addressesOf } from '../api/addresses.ts';
import type { Config } from '../config/schema.ts';
import { type Finding, fault, good, look } from './finding.ts';

/** Whether pages could be served where the config says, and under which addresses. `isServing`: a hawse answers there already. */
export async function checkAddresses(server: Config['server'], isServing: boolean): Promise<Finding[]> {
  const { port, host, tls } = server;
  const findings: Finding[] = [];
  const secure =
    tls === false ? [] : [{ port: tls.port ?? (port === 0 ? 0 : port + 1), key: 'server.tls.port' }];
  for (const one of isServing ? [] : [{ port, key: 'server.port' }, ...secure]) {
    const code = await portTaken(one.port, host);
    if (code)
      findings.push(fault('addresses', `port ${one.port}: ${words(code, host)}`, cure(code, one.key)));
  }
  const { here, others } = addressesOf(host, port);
  findings.push(
    good(
      'addresses',
      `pages: ${[...here, ...others].join(' ')}${isServing ? ' (hawse answers there now)' : ''}`,
    ),
  );
  if (others.length === 0)
    findings.push(
      here.length > 0 && (host.startsWith('127.') || host === 'localhost' || host === '::1')
        ? look('addresses', `server.host is ${host}: no phone can reach the pages`, 'leave server.host out')
        : look(
            'addresses',
            'this computer is in no network: no phone can reach it',
            'connect it to the boat’s Wi-Fi or cable',
          ),
    );
  return findings;
}

/** The system's code for why no server can listen there; undefined: one can. */
function portTaken(port: number, host: string): Promise<string | undefined> {
  return new Promise((resolve) => {
    const probe = createServer();
    probe.once('error', (error: NodeJS.ErrnoException) => resolve(error.code ?? error.message));
    probe.listen({ port, host, exclusive: true }, () => probe.close(() => resolve(undefined)));
  });
}

function words(code: string, host: string): string {
  if (code === 'EADDRINUSE') return 'it is taken by another program';
  if (code === 'EACCES') return 'this user may not take it';
  if (code === 'EADDRNOTAVAIL' || code === 'ENOTFOUND') return `this computer has no address ${host}`;
  return `it cannot be had (${code})`;
}

function cure(code: string, key: string): string {
  if (code === 'EADDRINUSE') return `end that program, or set ${key}`;
  if (code === 'EACCES') return `ports below 1024 are for root: set ${key} to a higher one`;
  return 'set server.host, or leave it out';
}
