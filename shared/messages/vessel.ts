import { z } from 'zod';
import type { Boat, Cable } from '../settings.ts';
import type { Quantity, VesselView } from '../vessel/view.ts';
import { degreesTrue, known, latLon, time } from './quantities.ts';
import { same } from './same.ts';

/** The same kind of member for every quantity, each of which may be absent. */
function perQuantity<S extends z.ZodType>(schema: S) {
  return z.object({
    position: schema.exactOptional(),
    motion: schema.exactOptional(),
    heading: schema.exactOptional(),
    wind: schema.exactOptional(),
    depth: schema.exactOptional(),
    'water-speed': schema.exactOptional(),
    stream: schema.exactOptional(),
    'water-temperature': schema.exactOptional(),
  });
}

const ages = same<Partial<Record<Quantity, number>>>()(perQuantity(z.number()));
const sources = same<Partial<Record<Quantity, string>>>()(perQuantity(z.string()));

export const vesselView = same<VesselView>()(
  z.object({
    at: time,
    clockOffset: z.number().exactOptional(),
    antenna: known(latLon).exactOptional(),
    roller: known(latLon).extend({ sigma: z.number() }).exactOptional(),
    positionSigma: z.number().exactOptional(),
    positionDoubt: z.object({ reason: z.string(), since: time }).exactOptional(),
    sog: known(z.number()).exactOptional(),
    cog: known(degreesTrue).exactOptional(),
    heading: known(degreesTrue)
      .extend({ sigma: z.number(), from: z.enum(['true', 'magnetic-sensor', 'magnetic-model']) })
      .exactOptional(),
    variation: z.number().exactOptional(),
    windApparent: known(z.object({ angle: z.number(), speed: z.number() })).exactOptional(),
    windGround: known(z.object({ from: degreesTrue, speed: z.number() })).exactOptional(),
    waterSpeed: known(z.object({ ahead: z.number(), athwart: z.number().exactOptional() })).exactOptional(),
    stream: known(z.object({ set: degreesTrue, drift: z.number() })).exactOptional(),
    depth: known(
      z.object({
        measured: z.number(),
        surface: z.number().exactOptional(),
        keel: z.number().exactOptional(),
      }),
    ).exactOptional(),
    waterTemperature: known(z.number()).exactOptional(),
    ages: ages.describe('Seconds since the last good value; absent: never had one'),
    sources: sources.describe('Which source serves each quantity now'),
  }),
).meta({
  id: 'Vessel',
  description: 'The boat as known at one moment, SI units and degrees true; absent: unknown or too old',
});

export const boat = same<Boat>()(
  z.object({
    name: z.string(),
    mmsi: z.int().exactOptional(),
    hull: z.enum(['monohull', 'catamaran', 'trimaran']),
    length: z.number(),
    beam: z.number(),
    draft: z.number(),
    roller: z.object({ height: z.number() }),
    antenna: z.object({ aftOfRoller: z.number(), toStarboard: z.number() }),
    sounder: z.object({ belowWaterline: z.number().exactOptional(), aftOfRoller: z.number() }),
    windage: z.object({ area: z.number().exactOptional() }),
    displacement: z.number().exactOptional(),
  }),
).meta({ id: 'Boat', description: 'The boat as hawse.yaml tells it, SI units' });

export const cable = same<Cable>()(
  z.object({
    veered: z.number().exactOptional(),
    massPerMetre: z.number(),
    size: z.number().describe('mm').exactOptional(),
    workingLoad: z.number().exactOptional(),
    counter: z.string().describe('Name of the chain counter in XDR').exactOptional(),
    marks: z
      .array(z.object({ at: z.number().describe('Metres from the anchor'), what: z.string() }))
      .exactOptional(),
    length: z.number().describe('Chain on board').exactOptional(),
    rope: z.number().exactOptional(),
  }),
).meta({ id: 'Cable', description: 'Chain and rope as hawse.yaml tells them, SI units but for the size' });
