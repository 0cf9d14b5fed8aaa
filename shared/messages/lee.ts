import { z } from 'zod';
import type { LeeView } from '../lee/view.ts';
import { degreesTrue, estimate } from './quantities.ts';
import { same } from './same.ts';

export const leeView = same<LeeView>()(
  z.object({
    toward: degreesTrue,
    drift: estimate,
    first: z
      .object({
        what: z.enum(['neighbour', 'sector', 'shoal']),
        name: z.string().exactOptional(),
        distance: z.number(),
        in: z.number(),
      })
      .exactOptional(),
    report: z.string(),
  }),
).meta({ id: 'Lee', description: 'Where she goes if the anchor goes now' });
