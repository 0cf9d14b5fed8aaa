import { z } from 'zod';

/** The process that looks after the one which keeps the watch. */
export const supervise = z
  .strictObject({
    stallSeconds: z
      .number()
      .min(3)
      .max(300)
      .default(10)
      .describe('hawse is killed and started again when it stands still for so long'),
    run: z
      .array(z.array(z.string().min(1)).min(1))
      .max(4)
      .default([])
      .describe(
        'Commands to run when it stands still or has ended, as lists of words, e.g. [[aplay, /usr/share/sounds/alarm.wav]]; HAWSE_TEXT tells why',
      ),
  })
  .prefault({})
  .describe('What looks after hawse itself');
