import { z } from 'zod';
import { measure } from '../measures.ts';

/** What is painted or tied on the chain, from the anchor inwards: the foredeck tells the length out by it. */
export const chainMarks = z
  .array(
    z.strictObject({
      at: measure('length', { min: 0.5, max: 500 }).describe('Metres from the anchor'),
      what: z.string().trim().min(1).max(16).describe('What is seen there, e.g. red'),
    }),
  )
  .max(40)
  .refine((marks) => marks.every(({ at }, i) => i === 0 || at > marks[i - 1]!.at), {
    error: 'expected the marks in order, from the anchor inwards, none twice',
  })
  .optional()
  .describe('Marks on the chain, from the anchor inwards, e.g. [{at: 10 m, what: red}]');
