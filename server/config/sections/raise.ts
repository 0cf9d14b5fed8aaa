import { z } from 'zod';
import { ConfigError } from '../faults.ts';
import { measure } from '../measures.ts';

/** hawse.yaml `raise`: the ways in which an alert leaves the boat's computer, whatever page is open or not. */

const NEVER = 'never';
const delay = z
  .union(
    [z.literal(NEVER), z.literal('at once').transform(() => 0), measure('duration', { min: 0, max: 3600 })],
    {
      error: 'expected "at once", "never" or a duration up to 1 h, e.g. 30 s',
    },
  )
  .transform((told) => (told === NEVER ? undefined : told));
const AFTER = 'How long an alert of that priority must be unanswered before this output tells it';

const argv = z
  .array(z.string().regex(/^[^\0]*$/, 'expected text without NUL'))
  .min(1)
  .max(50)
  .refine(([program]) => program !== '', 'the first item is the program, and it is empty')
  .transform((told) => told as [string, ...string[]])
  .describe('Program and arguments, each an item of its own; no shell reads them');
const port = z.int().min(1).max(65_535);
const common = {
  id: z
    .string()
    .regex(/^[A-Za-z0-9_-]{1,15}$/, 'expected 1 to 15 letters, digits, - or _')
    .optional()
    .describe('Name on the pages and in alerts; made from kind and number when left out'),
  atOnceWithoutPhone: z
    .boolean()
    .default(true)
    .describe('Alarms go out at once while no armed phone would wake anybody'),
};
/** The horn comes after the pages: 30 s is the time after which a silenced alarm sounds again (MSC.302(87)). */
const sounding = {
  ...common,
  after: z
    .strictObject({ alarm: delay.prefault('30 s'), warning: delay.prefault('2 min') })
    .prefault({})
    .describe(AFTER),
};
const telling = (caution: string) =>
  z
    .strictObject({
      alarm: delay.prefault('at once'),
      warning: delay.prefault('at once'),
      caution: delay.prefault(caution),
    })
    .prefault({})
    .describe(AFTER);
const limit = measure('duration', { min: 1, max: 120 }).default(10);

const sentences = {
  ...common,
  after: telling('at once'),
  formats: z
    .array(z.enum(['ALR', 'ALF']))
    .min(1)
    .default(['ALF'])
    .describe('ALF with ALC, the older ALR, or both'),
  talker: z
    .string()
    .regex(/^[A-Z]{2}$/, 'expected two capital letters')
    .default('II'),
  manufacturer: z
    .string()
    .regex(/^[A-Z]{3}$/, 'expected three capital letters')
    .default('HWS')
    .describe('Mnemonic of the maker in ALF, ALC and ACN'),
};

const output = z.union(
  [
    z.strictObject({ run: argv.describe('Sounds while it runs; ended with SIGTERM'), ...sounding }),
    z.strictObject({
      on: argv,
      off: argv,
      limit: limit.describe('Either must have ended after this'),
      ...sounding,
    }),
    z.strictObject({
      serial: z.string().min(1).describe('Device, e.g. /dev/ttyUSB1'),
      baud: z.int().min(1200).max(921_600).default(4800),
      accept: z.boolean().default(false).describe('ACN and ACK that come in there are obeyed'),
      ...sentences,
    }),
    z.strictObject({
      udp: port.describe('Port to send to'),
      host: z.string().min(1).default('255.255.255.255').describe('Address to send to'),
      accept: z
        .strictObject({
          port: port.describe('ACN and ACK that come in on this UDP port are obeyed'),
          from: z.union([z.ipv4(), z.ipv6()]).describe('… from this address only'),
        })
        .optional(),
      ...sentences,
    }),
    z.strictObject({
      webhook: z.url({ protocol: /^https?$/, error: 'expected an address http://… or https://…' }),
      headers: z.record(z.string().regex(/^[A-Za-z0-9-]+$/), z.string().regex(/^[\x20-\x7e]*$/)).default({}),
      limit: limit.describe('For each try'),
      retries: z
        .array(measure('duration', { min: 0, max: 600 }))
        .max(10)
        .default([2, 10, 30])
        .describe('Pauses before each further try'),
      ...common,
      after: telling(NEVER),
    }),
  ],
  { error: 'expected {run}, {on, off}, {serial}, {udp} or {webhook}' },
);

export const raise = z
  .strictObject({ outputs: z.array(output).max(16).default([]) })
  .prefault({})
  .describe('The horn: how alerts leave the boat’s computer');

export type Raise = z.output<typeof raise>;
type Output = Raise['outputs'][number];
const kindOf = (output: Output) => {
  if ('serial' in output) return 'serial';
  if ('udp' in output) return 'udp';
  return 'webhook' in output ? 'webhook' : 'command';
};

/** The outputs with their kind and name: the one given, else kind and number in order, e.g. command1. Throws on a name used twice. */
export function nameOutputs({ outputs }: Raise) {
  const counts = { command: 0, serial: 0, udp: 0, webhook: 0 };
  const named = outputs.map((output) => {
    const kind = kindOf(output);
    const id = output.id ?? `${kind}${++counts[kind]}`;
    if ('serial' in output) {
      const { serial, ...rest } = output;
      return { ...rest, id, kind: 'serial' as const, path: serial };
    }
    if ('udp' in output) {
      const { udp, ...rest } = output;
      return { ...rest, id, kind: 'udp' as const, port: udp };
    }
    if ('webhook' in output) {
      const { webhook, ...rest } = output;
      return { ...rest, id, kind: 'webhook' as const, url: webhook };
    }
    return { ...output, id, kind: 'command' as const };
  });
  const double = named.find(({ id }, index) => named.findIndex((other) => other.id === id) !== index);
  if (double)
    throw new ConfigError(`raise.outputs: the id "${double.id}" is used twice; each needs its own.`);
  return named;
}
