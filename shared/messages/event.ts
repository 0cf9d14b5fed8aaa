import { z } from 'zod';
import type { AlertEvent, Event, LieEvent } from '../events.ts';
import { alert } from './alert.ts';
import { degreesTrue, time } from './quantities.ts';
import { same } from './same.ts';
import { cableState, mark } from './watch.ts';
import { stay } from './weigh.ts';

const alertEvent = same<AlertEvent>()(
  alert
    .pick({ id: true, kind: true, priority: true, state: true, text: true, value: true, limit: true })
    .extend({ event: z.literal('alert'), t: time, by: z.string().exactOptional() }),
);

const lieEvent = same<LieEvent>()(
  z.object({
    event: z.literal('lie'),
    t: time,
    distance: z.number().exactOptional(),
    bearing: degreesTrue.exactOptional(),
    heading: degreesTrue.exactOptional(),
    lead: z.number().exactOptional(),
    depth: z.number().exactOptional(),
    wind: z.object({ speed: z.number(), from: degreesTrue }).exactOptional(),
    stream: z.object({ drift: z.number(), set: degreesTrue }).exactOptional(),
    divergence: z.number().exactOptional(),
    cable: z.object({ reach: z.number().exactOptional(), state: cableState.exactOptional() }).exactOptional(),
    anchor: z
      .object({
        moved: z.number(),
        bearing: degreesTrue.exactOptional(),
        sigma: z.number(),
        probability: z.number(),
      })
      .exactOptional(),
  }),
);

export const event = same<Event>()(
  z.discriminatedUnion('event', [
    alertEvent,
    lieEvent,
    z.object({
      event: z.literal('weigh'),
      t: time,
      stay: stay.exactOptional(),
      cable: cableState.exactOptional(),
      distance: z.number().exactOptional(),
      out: z.number().exactOptional(),
    }),
    z.object({ event: z.literal('mark'), t: time, by: z.string(), mark: mark.exactOptional() }),
    z.object({ event: z.literal('signal'), t: time, by: z.string(), signal: z.string(), number: z.int() }),
    z.object({ event: z.literal('note'), t: time, text: z.string() }),
  ]),
).meta({ id: 'Event', description: 'What the engine says, as in hawse replay --jsonl' });
