import { z } from 'zod';
import type { OutputView } from '../outputs.ts';
import { time } from './quantities.ts';
import { same } from './same.ts';

export const outputView = same<OutputView>()(
  z.object({
    id: z.string(),
    kind: z.enum(['command', 'serial', 'udp', 'webhook']),
    what: z.string().describe('Program, device or address'),
    on: z.boolean().describe('It tells an alert now'),
    failing: z.boolean(),
    lastOk: time.exactOptional(),
    lastFailure: z.object({ at: time, why: z.string() }).exactOptional(),
    lastTest: z.object({ at: time, by: z.string(), ok: z.boolean(), detail: z.string() }).exactOptional(),
  }),
).meta({ id: 'Output', description: 'A way in which alerts leave the boat’s computer beside the pages' });

export const hornTestAnswer = z.object({
  outputs: z.array(z.object({ id: z.string(), ok: z.boolean(), detail: z.string() })),
});
