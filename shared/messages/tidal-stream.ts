import { z } from 'zod';
import type { SlackTold, StreamTurnView } from '../tidal-stream/view.ts';
import { degreesTrue, estimate, latLon, time } from './quantities.ts';
import { same } from './same.ts';
import { strict } from './strict.ts';

export const streamTurnView = same<StreamTurnView>()(
  z.object({
    at: estimate.describe('Next slack water; sigma in seconds').exactOptional(),
    from: z.enum(['measured', 'table', 'both']).exactOptional(),
    setsAfterwards: degreesTrue.exactOptional(),
    duration: z.number().exactOptional(),
    lies: z.object({ heading: estimate, drift: z.number(), roller: latLon.exactOptional() }).exactOptional(),
    unknown: z.string().exactOptional(),
    record: z.object({ samples: z.int(), span: z.number() }),
    report: z.string().exactOptional(),
  }),
).meta({ id: 'StreamTurn', description: 'When the stream turns next, and what she will do' });

const slack = same<SlackTold>()(
  strict({
    at: time,
    setsAfterwards: z.number().min(0).max(360).describe('Degrees true').exactOptional(),
  }),
);

export const slacksRequest = strict({ slacks: z.array(slack).min(1).max(60) }).meta({
  id: 'SlacksRequest',
  description: 'Slack waters of a tidal stream table',
});

export const slacksAnswer = z
  .object({ streamTurn: streamTurnView.exactOptional() })
  .meta({ id: 'SlacksAnswer' });
