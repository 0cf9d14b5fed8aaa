import { z } from 'zod';
import type { HandNeighbour, NeighbourView } from '../neighbours/view.ts';
import { degreesTrue, time } from './quantities.ts';
import { same } from './same.ts';
import { strict } from './strict.ts';

const place = z.object({ lat: z.number(), lon: z.number() });
const metres = z.number();

export const neighbourView = same<NeighbourView>()(
  z.object({
    id: z.string(),
    from: z.enum(['ais', 'hand']),
    name: z.string().exactOptional(),
    activity: z.enum(['at-anchor', 'moored', 'under-way', 'unknown']),
    activityFrom: z.enum(['told', 'moves', 'hand']),
    place,
    at: time,
    stale: z.literal(true).describe('Not heard for so long that this is where she was').exactOptional(),
    heading: degreesTrue.exactOptional(),
    headingFrom: z.enum(['told', 'assumed']).exactOptional(),
    sog: z.number().exactOptional(),
    cog: degreesTrue.exactOptional(),
    extent: z.object({ toBow: metres, toStern: metres, toPort: metres, toStarboard: metres }),
    extentFrom: z.enum(['told', 'assumed']),
    distance: metres.describe('Clear water between the hulls').exactOptional(),
    bearing: degreesTrue.exactOptional(),
    circle: z
      .object({
        anchor: place,
        radius: metres,
        sigma: metres,
        veered: metres,
        veeredFrom: z.enum(['told', 'assumed']),
      })
      .exactOptional(),
    together: metres.describe('Least, when both swing in step').exactOptional(),
    outOfStep: metres.describe('Least, when each may lie any way').exactOptional(),
    passing: z.object({ distance: metres, in: z.number() }).exactOptional(),
    overOurAnchor: z.literal(true).exactOptional(),
    dragging: z
      .object({
        beyond: metres,
        speed: z.number(),
        toward: degreesTrue,
        reachesUsIn: z.number().exactOptional(),
      })
      .exactOptional(),
  }),
).meta({ id: 'Neighbour', description: 'A vessel near ours, by AIS or told by the crew' });

export const neighbourRequest = same<HandNeighbour>()(
  strict({
    range: z.number().min(1).max(2000).describe('Of her bow from our roller, metres'),
    bearing: z.number().min(0).max(360).describe('… degrees true'),
    name: z.string().trim().min(1).max(40).exactOptional(),
    length: z.number().min(2).max(400).exactOptional().describe('Metres over all'),
    veered: z.number().min(1).max(500).exactOptional().describe('Cable she has probably out, metres'),
  }),
).meta({ id: 'NeighbourRequest', description: 'A neighbour that AIS does not show' });

export const neighboursAnswer = z
  .object({ neighbours: z.array(neighbourView) })
  .meta({ id: 'NeighboursAnswer' });
