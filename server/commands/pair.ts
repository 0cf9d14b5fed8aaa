import { existsSync } from 'node:fs';
import { ROLES } from '../../shared/access.ts';
import { pairingAnswer, problem } from '../../shared/messages.ts';
import { invitation } from '../access/invite.ts';
import { loadConfig } from '../config/load.ts';
import { configSchema } from '../config/schema.ts';
import { numberOption, readArguments, UsageError } from './usage.ts';

const HELP = `usage: hawse pair [--role ROLE] [--config FILE] [--port N]

Asks the hawse that runs on this computer for a code by which one phone can be paired within ten minutes.

  --role ROLE   the most that the phone may get: ${ROLES.join(', ')} (default: command)
  --config FILE hawse.yaml, for its port (default: ./hawse.yaml, when it is there)
  --port N      port of the pages (default: what the config says, else 8274)
`;

export async function run(args: string[]): Promise<number> {
  const options = { role: { type: 'string' }, config: { type: 'string' }, port: { type: 'string' } } as const;
  const read = readArguments(args, options, HELP);
  if (!read) return 0;
  const { role = 'command', config, port } = read.values;
  if (!ROLES.some((known) => known === role))
    throw new UsageError(`--role "${role}" is no role; allowed: ${ROLES.join(', ')}`);
  const wanted = numberOption('port', port, 1, 65_535) ?? portOf(config);
  const answer = await fetch(`http://127.0.0.1:${wanted}/api/v1/pairing`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ role }),
  }).catch(() => undefined);
  if (!answer) {
    process.stderr.write(`hawse: no hawse answers on port ${wanted} of this computer; see --port.\n`);
    return 1;
  }
  const told: unknown = await answer.json().catch(() => undefined);
  const opened = pairingAnswer.safeParse(told);
  if (!opened.success) {
    const refused = problem.safeParse(told);
    process.stderr.write(`hawse: ${refused.data?.detail ?? `the answer was ${answer.status}`}\n`);
    return 1;
  }
  process.stdout.write(invitation(opened.data, opened.data.addresses));
  return 0;
}

function portOf(config: string | undefined): number {
  const found = config ?? (existsSync('hawse.yaml') ? 'hawse.yaml' : undefined);
  const server = found ? loadConfig(found).server : configSchema.shape.server.parse(undefined);
  return server.port;
}
