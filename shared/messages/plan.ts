import { z } from 'zod';
import type { Plan, PlanItem, PlanItems } from '../plan/plan.ts';
import type { PlanRequest } from '../plan/request.ts';
import { same } from './same.ts';
import { strict } from './strict.ts';
import { boat } from './vessel.ts';

const maybe = z.number().exactOptional();

const planBoat = strict({
  hull: boat.shape.hull,
  length: z.number(),
  beam: z.number(),
  draft: z.number(),
  windage: strict({ area: maybe }),
  displacement: maybe,
  roller: strict({ height: z.number() }),
  antenna: strict({ aftOfRoller: z.number(), toStarboard: z.number() }).exactOptional(),
});

const asked = same<PlanRequest>()(
  strict({
    depth: z.number().describe('Now, from the surface, at the place of the anchor'),
    riseToHigh: maybe,
    fallToLow: maybe,
    boat: planBoat,
    chain: z.union([strict({ size: z.number() }), strict({ massPerMetre: z.number(), workingLoad: maybe })], {
      error: 'expected {size} in mm, or {massPerMetre, workingLoad} in kg/m and N',
    }),
    chainLength: maybe,
    ropeLength: maybe,
    wind: z.number().describe('Mean wind to prepare for'),
    gustFactor: maybe,
    sheerFactor: maybe,
    stream: maybe,
    slope: maybe,
    room: maybe,
    veer: maybe,
    surge: maybe,
    snubber: strict({ diameter: z.number(), length: z.number() }).exactOptional(),
  }),
);

/** Ranges are the planner's own affair: it tells every fault with what is allowed. */
export const planRequest = asked
  .extend({ boat: planBoat.exactOptional().describe('Left out: the boat of hawse.yaml') })
  .meta({ id: 'PlanRequest', description: 'Metres, m/s, kg/m, degrees; mm for chain and snubber' });

const item = same<PlanItem>()(
  z.object({
    value: z.number(),
    sigma: maybe,
    unit: z.enum(['m', 'N', '°', '×']),
    formula: z.string(),
    source: z.string(),
    caution: z.string().exactOptional(),
  }),
).meta({ id: 'PlanItem', description: 'One figure of a plan with where it comes from' });

const items = same<PlanItems>()(
  z.object({
    windLoad: item,
    streamLoad: item,
    load: item,
    tableLoad: item.exactOptional(),
    workingLoadShare: item.exactOptional(),
    veer: item,
    scope: item,
    angleAtAnchor: item,
    onBottom: item,
    reachHigh: item,
    reachLow: item,
    circleRoller: item,
    circleStern: item,
    circleAntenna: item,
    roomLeft: item.exactOptional(),
    longestForRoom: item.exactOptional(),
    underKeelLow: item,
    surgePeak: item.exactOptional(),
  }),
);

const line = z.array(z.object({ out: z.number(), up: z.number() }));

export const planAnswer = same<Extract<Plan, { state: 'plan' }>>()(
  z.object({
    state: z.literal('plan'),
    items,
    profile: z.object({ high: line, low: line }),
    cautions: z.array(z.string()),
  }),
).meta({ id: 'PlanAnswer', description: 'What it takes to lie there; every figure with formula and source' });

export type PlanAnswer = z.output<typeof planAnswer>;
