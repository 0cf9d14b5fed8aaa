import { z } from 'zod';
import { ROLES } from '../../../shared/access.ts';

/** Who may do what without a key. */
export const access = z
  .strictObject({
    look: z
      .enum(['anyone', 'paired'])
      .default('anyone')
      .describe('Who may look: anyone on the boat’s network, or paired devices only'),
    thisComputer: z
      .enum(ROLES)
      .default('command')
      .describe('What the boat’s computer itself may do without a key'),
  })
  .prefault({})
  .describe('Who may do what');
