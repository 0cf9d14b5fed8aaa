import { z } from 'zod';
import type { SoundingsView } from '../soundings/view.ts';
import { estimate, latLon, time } from './quantities.ts';
import { same } from './same.ts';

export const soundingsView = same<SoundingsView>()(
  z.object({
    origin: latLon,
    side: z.number().describe('Of a cell, metres'),
    reduced: z.boolean().describe('To the datum of the tide as told'),
    cells: z.array(z.tuple([z.int(), z.int(), z.number(), z.number()])),
    share: z.number().min(0).max(1),
    least: z
      .object({ depth: estimate, underKeel: z.number(), at: time, place: latLon, sounded: z.boolean() })
      .exactOptional(),
    leastUnknown: z.string().exactOptional(),
  }),
).meta({ id: 'Soundings', description: 'The bottom about the mark as the boat has sounded it' });
