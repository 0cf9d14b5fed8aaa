import { z } from 'zod';
import type { GuidanceView, LeadView, Stay, WeighView } from '../weigh/view.ts';
import { degreesTrue, estimate, time } from './quantities.ts';
import { same } from './same.ts';
import { cableState } from './watch.ts';

export const stay = same<Stay>()(z.enum(['long', 'short', 'up-and-down', 'aweigh']));
const certainty = z.number().min(0).max(1);

const lead = same<LeadView>()(
  z.object({
    angle: z.number().describe('Off the bow, starboard positive'),
    sigma: z.number(),
    clock: z.number(),
    name: z.enum(['ahead', 'on-the-bow', 'abeam', 'under-the-hull']),
    from: z.enum(['compass', 'foredeck']),
    limit: z.number().describe('Aft of this it leads foul on this hull'),
  }),
);

const guidance = same<GuidanceView>()(
  z.object({
    course: degreesTrue,
    turn: z.number().exactOptional(),
    roundFirst: z.literal(true).exactOptional(),
    throughWater: z.number(),
    madeGood: z.number(),
    leeway: z.number(),
    windAngle: z.number().exactOptional(),
    closing: z.number().describe('Closing speed that fits the distance, m/s'),
    ahead: z.number().min(-1).max(1),
    engine: z.enum(['ahead', 'ahead-gently', 'neutral', 'astern-gently']),
    correction: z.object({ most: z.number(), every: z.number() }),
    scale: z.number(),
  }),
);

export const weighView = same<WeighView>()(
  z.object({
    since: time,
    lastSignal: z.object({ signal: z.string(), number: z.int(), at: time, by: z.string() }).exactOptional(),
    distance: estimate.exactOptional(),
    bearing: degreesTrue.exactOptional(),
    closing: estimate.exactOptional(),
    lead: lead.exactOptional(),
    out: estimate
      .extend({ from: z.enum(['counter', 'foredeck', 'counted', 'veered', 'bounds']) })
      .exactOptional(),
    height: estimate.describe('Roller above the bottom').exactOptional(),
    heaving: z.literal(true).exactOptional(),
    snubbed: z.literal(true).exactOptional(),
    cable: z.object({ state: cableState, certainty }).exactOptional(),
    stay: z
      .object({ name: stay, certainty, from: z.enum(['cable', 'foredeck', 'distance', 'motion']) })
      .exactOptional(),
    nearEnd: z.literal(true).exactOptional(),
    strain: certainty.exactOptional(),
    brokenOut: z.object({ at: time, from: z.enum(['foredeck', 'motion', 'cable']) }).exactOptional(),
    adrift: z
      .object({
        speed: z.number(),
        toward: degreesTrue,
        edge: z.number().exactOptional(),
        shoal: z.number().exactOptional(),
      })
      .exactOptional(),
    taking: z
      .object({ by: z.enum(['wind', 'stream', 'both']), speed: z.number(), toward: degreesTrue })
      .exactOptional(),
    guidance: guidance.exactOptional(),
    noGuidance: z.string().exactOptional(),
    held: z.object({ angle: z.number(), deviation: z.number().exactOptional() }).exactOptional(),
    report: z.string().exactOptional(),
  }),
).meta({ id: 'Weigh', description: 'The weighing monitor, while it is on; absent: unknown' });
