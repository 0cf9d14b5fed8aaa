import { z } from 'zod';
import { measure } from '../measures.ts';

const DAY = 86_400;

/** How long the recorded sentences are kept. Nights in the logbook stay. */
export const journal = z
  .strictObject({
    keepDays: z
      .number()
      .min(1)
      .max(36_500)
      .default(400)
      .describe('Recorded sentences older than this are removed'),
    keepAtMost: measure('storage', { min: 50e6, max: 100e12 })
      .default(50e9)
      .describe('The oldest are removed when all together are more than this'),
    leastFree: measure('storage', { min: 20e6, max: 10e12 })
      .default(500e6)
      .describe(
        'Room that must stay free on the disk: below this the oldest are removed, and a warning comes',
      ),
    packAfterDays: z
      .number()
      .min(0)
      .max(36_500)
      .default(2)
      .describe('Recorded sentences older than this are packed (gzip)'),
  })
  .prefault({})
  .describe('How long the log is kept');

/** The same in seconds and bytes. */
export const toPolicy = ({ keepDays, keepAtMost, leastFree, packAfterDays }: z.output<typeof journal>) => ({
  keepSeconds: keepDays * DAY,
  keepBytes: keepAtMost,
  leastFree,
  packAfter: packAfterDays * DAY,
});
