import { z } from 'zod';
import type { Limits } from '../settings.ts';
import type { CableState, Mark, Sector, TrackPoint, WatchView, WorstLoad } from '../watch/view.ts';
import { alertKind } from './alert.ts';
import { degreesTrue, estimate, latLon, time } from './quantities.ts';
import { same } from './same.ts';

export const cableState = same<CableState>()(z.enum(['slack', 'fair', 'taut']));

export const mark = same<Mark>()(
  latLon.extend({
    sigma: z.number().describe('One-sigma uncertainty per axis, metres'),
    at: time,
    by: z.string(),
    how: z.enum(['here', 'position', 'bearing-and-distance', 'track', 'set-back', 'anchorage-file']),
  }),
).meta({ id: 'Mark', description: 'Where the anchor lies, as logged' });

const sector = same<Sector>()(
  z.object({
    name: z.string().exactOptional(),
    from: degreesTrue,
    to: degreesTrue,
    beyond: z.number(),
    lat: z.number(),
    lon: z.number(),
  }),
).meta({ id: 'Sector', description: 'A part of the water that she must not enter' });

export const limits = same<Limits>()(
  z.object({
    depthBelow: z.number().exactOptional(),
    depthAbove: z.number().exactOptional(),
    underKeelBelow: z.number().exactOptional(),
    windAbove: z.number().exactOptional(),
    windShift: z.number().exactOptional(),
  }),
).meta({ id: 'Limits', description: 'Metres, m/s, degrees; an absent limit is not watched' });

const lie = z.object({
  to: z.enum(['wind', 'stream', 'both']).exactOptional(),
  divergence: z.number().exactOptional(),
  predictedHeading: estimate.exactOptional(),
  stream: z
    .object({ set: estimate, drift: estimate, from: z.enum(['instrument', 'log', 'sheer']) })
    .exactOptional(),
  streamUnknown: z.string().exactOptional(),
});

export const worstLoad = same<WorstLoad>()(
  estimate.extend({ at: time, wind: z.number(), drift: z.number().exactOptional() }),
).meta({
  id: 'WorstLoad',
  description: 'Steady pull on the cable, N, by wind and stream; sheer and waves not counted',
});

export const watchView = same<WatchView>()(
  z.object({
    phase: z.enum(['no-mark', 'watching', 'weighing']),
    mark: mark.exactOptional(),
    veered: z.number().exactOptional(),
    circle: z.object({ radius: z.number(), computed: z.boolean(), explanation: z.string() }).exactOptional(),
    limits,
    sectors: z.array(sector).exactOptional(),
    standDown: z.array(alertKind).describe('Not watched at present although it could be'),
    distance: estimate.exactOptional(),
    bearing: degreesTrue.exactOptional(),
    lead: z.number().describe('Bearing of the mark off the bow, starboard positive').exactOptional(),
    cable: z
      .object({ reach: estimate, state: cableState, certainty: z.number().min(0).max(1) })
      .exactOptional(),
    lie: lie.exactOptional(),
    anchor: z
      .object({
        moved: z.number(),
        bearing: degreesTrue.exactOptional(),
        sigma: z.number(),
        probability: z.number().min(0).max(1),
        lat: z.number(),
        lon: z.number(),
        east: z.number().describe('Metres from the mark'),
        north: z.number().describe('Metres from the mark'),
        ellipse: z
          .object({ major: z.number(), minor: z.number(), bearing: degreesTrue })
          .describe('One sigma: semi-axes in metres, direction of the major one'),
      })
      .exactOptional(),
    offer: latLon
      .extend({ moved: z.number(), bearing: degreesTrue, sigma: z.number() })
      .describe('The mark may be moved to where the anchor has dug in: POST /mark {"setBack": true}')
      .exactOptional(),
    cableSupposed: z
      .number()
      .describe('Metres of cable supposed from how she lies, while nobody has told')
      .exactOptional(),
    dragUnseen: z.string().describe('Why drag is not judged at present').exactOptional(),
    farthest: z.number().exactOptional(),
    worstLoad: worstLoad.exactOptional(),
  }),
).meta({ id: 'Watch', description: 'What the watch knows and thinks; absent: unknown' });

export const trackPoint = same<TrackPoint>()(
  latLon.extend({
    at: time,
    heading: degreesTrue.exactOptional(),
    depth: z.number().exactOptional(),
    wind: z.number().exactOptional(),
    windFrom: degreesTrue.exactOptional(),
    lie: z
      .object({
        distance: z.number(),
        reach: z.number(),
        moved: z.number(),
        probability: z.number().min(0).max(1),
      })
      .describe(
        'Once a minute: the farthest from the mark, the reach of the cable, and what that says of the anchor',
      )
      .exactOptional(),
  }),
).meta({ id: 'TrackPoint', description: 'Where the bow roller was' });
