import { existsSync } from 'node:fs';
import { z } from 'zod';
import { checkAddresses } from '../check/addresses.ts';
import { checkCertificate } from '../check/certificate.ts';
import { checkClock } from '../check/clock.ts';
import { checkConfig } from '../check/config.ts';
import { checkDisk } from '../check/disk.ts';
import { type Finding, fault } from '../check/finding.ts';
import { checkHorn } from '../check/horn.ts';
import { checkInputs, type InputsFound, inputsOfWatch } from '../check/inputs.ts';
import { commonBoat } from '../config/defaults.ts';
import type { Config } from '../config/schema.ts';
import { holderOf } from '../journal/lock.ts';
import { listSegments } from '../journal/segments.ts';
import { readArguments } from './usage.ts';

const HELP = `usage: hawse check [--config FILE] [--data DIR] [--json]

Looks for what would keep hawse from watching, and says what to do about each: config, inputs and permissions, disk, clock, addresses,
certificate, horn. Opens the inputs for a few seconds, sends nothing, sounds nothing. While a hawse keeps its watch in DIR it is asked
instead.

  --config FILE   hawse.yaml (default: ./hawse.yaml)
  --data DIR      data folder (default: ./data)
  --json          print one JSON object

Exit code 0: no fault; 1: a fault was found.
`;

const SIGNS = { good: '  ok   ', look: '  look ', fault: 'FAULT  ' } as const;

export async function run(args: string[]): Promise<number> {
  const read = readArguments(
    args,
    { config: { type: 'string' }, data: { type: 'string' }, json: { type: 'boolean' } },
    HELP,
  );
  if (!read) return 0;
  const { config: file = 'hawse.yaml', data = 'data', json } = read.values;
  const findings = await findAll(file, data);
  const faults = findings.filter(({ state }) => state === 'fault').length;
  if (json) process.stdout.write(`${JSON.stringify({ ok: faults === 0, faults, findings })}\n`);
  else {
    for (const { what, state, text, cure } of findings) {
      process.stdout.write(`${SIGNS[state]}${what.padEnd(12)} ${text}\n`);
      if (cure) process.stdout.write(`${' '.repeat(20)}do: ${cure}\n`);
    }
    const told = faults === 1 ? 'One fault was found.' : `${faults} faults were found.`;
    process.stdout.write(`\n${faults === 0 ? 'No fault was found.' : told}\n`);
  }
  return faults === 0 ? 0 : 1;
}

async function findAll(file: string, data: string): Promise<Finding[]> {
  const { config: told, findings } = checkConfig(file);
  // What does not hang on the file is looked at also without a good one.
  const config = told ?? commonBoat();
  const holder = await holderOf(data).catch(() => undefined);
  const running = holder === undefined ? undefined : await askRunning(config.server.port);
  const inputs =
    running ?? (holder === undefined ? await checkInputs(config) : unanswered(holder, config.server.port));
  return [
    ...findings,
    ...inputs.findings,
    ...(await checkDisk(data, config.journal.leastFree, holder)),
    ...checkClock({ now: Date.now() / 1000, ...(await clockFacts(data, inputs.clockOffset)) }),
    ...(await checkAddresses(config.server, running !== undefined)),
    ...checkCertificate(data, config.server.tls !== false, Date.now()),
    ...(await checkHorn(config)),
  ];
}

async function clockFacts(data: string, offset: number | undefined) {
  const recorded = (await listSegments(data).catch(() => [])).at(-1)?.start;
  return {
    ...(offset === undefined ? {} : { offset }),
    ...(recorded === undefined ? {} : { recorded }),
    ...(process.platform === 'linux' ? { hasBattery: existsSync('/sys/class/rtc/rtc0') } : {}),
  };
}

/** Of the state of a running hawse: what is asked here. */
const answer = z.object({
  vessel: z.object({ clockOffset: z.number().optional() }),
  inputs: z.array(
    z.object({
      id: z.string(),
      up: z.boolean(),
      detail: z.string(),
      sentences: z.number(),
      rejected: z.object({ checksum: z.number(), malformed: z.number(), unknown: z.number() }),
    }),
  ),
});

const PATIENCE_MS = 5000;

async function askRunning(port: Config['server']['port']): Promise<InputsFound | undefined> {
  const state = await fetch(`http://127.0.0.1:${port}/api/v1/state`, {
    signal: AbortSignal.timeout(PATIENCE_MS),
  })
    .then((reply) => reply.json())
    .catch(() => undefined);
  const read = answer.safeParse(state);
  if (!read.success) return undefined;
  const { vessel, inputs } = read.data;
  return {
    findings: inputsOfWatch(inputs),
    ...(vessel.clockOffset === undefined ? {} : { clockOffset: vessel.clockOffset }),
  };
}

const unanswered = (holder: number, port: number): InputsFound => ({
  findings: [
    fault(
      'inputs',
      `process ${holder} keeps its watch here and does not answer on port ${port}`,
      'it may use another port (--port), or stand still: look at its pages, or stop it',
    ),
  ],
});
