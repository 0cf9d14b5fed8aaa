import { z } from 'zod';

/** One thing wrong with a request: where it stands, and what is allowed there. */
export const fault = z
  .object({
    in: z.enum(['body', 'query', 'path', 'header', 'frame']),
    path: z.string().describe('Members joined by dots; empty: the whole'),
    detail: z.string(),
  })
  .meta({ id: 'Fault' });

/** RFC 9457 problem details, with what hawse adds. */
export const problem = z
  .object({
    type: z.string().describe('Stable name of the kind of problem: match on this, not on the words'),
    title: z.string(),
    status: z.int(),
    detail: z.string().describe('What is wrong and what is allowed, for a person'),
    errors: z.array(fault).exactOptional(),
    reasons: z.array(z.string()).exactOptional(),
  })
  .meta({ id: 'Problem', description: 'RFC 9457 problem details' });

export type Fault = z.output<typeof fault>;
export type ProblemDetails = z.output<typeof problem>;
