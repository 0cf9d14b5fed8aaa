import { z } from 'zod';
import { measure } from './measures.ts';
import { access } from './sections/access.ts';
import { journal } from './sections/journal.ts';
import { chainMarks } from './sections/marks.ts';
import { raise } from './sections/raise.ts';
import { mdns, tls } from './sections/secure.ts';
import { supervise } from './sections/supervise.ts';

/** hawse.yaml. Every key has a default or its error says how to fill it; unknown keys are refused. */

const boat = z
  .strictObject({
    name: z.string().min(1).max(60).default('this boat').describe('Name shown on the pages'),
    mmsi: z
      .int()
      .min(1)
      .max(999_999_999)
      .optional()
      .describe('Number of our own AIS transponder: it is no neighbour'),
    hull: z.enum(['monohull', 'catamaran', 'trimaran']).default('monohull'),
    length: measure('length', { min: 4, max: 40 }).describe('Length over all'),
    beam: measure('length', { min: 1, max: 20 })
      .optional()
      .describe('Beam; a third of the length when left out'),
    draft: measure('length', { min: 0.2, max: 8 }).describe('Draft to the lowest point'),
    roller: z
      .strictObject({
        height: measure('length', { min: 0, max: 6 }).describe('Bow roller above the waterline'),
      })
      .prefault({ height: 1.3 }),
    antenna: z
      .strictObject({
        aftOfRoller: measure('length', { min: -5, max: 40 }).describe('GNSS antenna aft of the bow roller'),
        toStarboard: measure('length', { min: -10, max: 10 })
          .default(0)
          .describe('… and to starboard of the centre line'),
      })
      .describe('Where the GNSS antenna stands: measured from the bow roller'),
    sounder: z
      .strictObject({
        belowWaterline: measure('length', { min: 0, max: 8 })
          .optional()
          .describe('Transducer below the waterline'),
        aftOfRoller: measure('length', { min: -5, max: 40 }).default(0),
      })
      .prefault({}),
    windage: z.strictObject({ area: measure('area', { min: 1, max: 300 }).optional() }).prefault({}),
    displacement: measure('mass', { min: 300, max: 200_000 }).optional(),
  })
  .describe('The boat');

const cable = z
  .strictObject({
    size: measure('length', { min: 0.004, max: 0.03 })
      .optional()
      .describe('Chain as sold, e.g. "10 mm"; or give massPerMetre'),
    massPerMetre: measure('massPerLength', { min: 0.05, max: 20 }).optional().describe('Mass in air'),
    workingLoad: measure('force', { min: 500, max: 200_000 }).optional().describe("From the maker's data"),
    length: measure('length', { min: 1, max: 500 }).optional().describe('Chain on board'),
    counter: z
      .string()
      .min(1)
      .max(40)
      .optional()
      .describe('Name of a chain counter in XDR sentences, e.g. CHAIN'),
    rope: measure('length', { min: 0, max: 500 }).optional().describe('Rope behind the chain'),
    veered: measure('length', { min: 1, max: 500 })
      .optional()
      .describe('Usually veered; changed on the page each time'),
    marks: chainMarks,
  })
  .describe('The cable');

const port = z.int().min(1).max(65_535);
const id = z.string().regex(/^[A-Za-z0-9_-]{1,15}$/, 'expected 1 to 15 letters, digits, - or _');
const perInput = {
  id: id.optional().describe('Name in the log; made from kind and number when left out'),
  checksumOptional: z
    .boolean()
    .default(false)
    .describe('Accept sentences without checksum from here, and say so'),
};
const instruments = z
  .array(
    z.union(
      [
        z.strictObject({
          serial: z.string().min(1).describe('Device, e.g. /dev/ttyUSB0'),
          baud: z.union([z.literal('auto'), z.int().min(1200).max(921_600)]).default('auto'),
          ...perInput,
        }),
        z.strictObject({
          udp: port.describe('Port to listen on'),
          host: z.string().optional().describe('Address to bind; all when left out'),
          from: z.string().optional().describe('Take datagrams from this address only'),
          ...perInput,
        }),
        z.strictObject({
          tcp: z
            .string()
            .regex(/^\[?[^\s\]]+\]?:\d{1,5}$/, 'expected HOST:PORT')
            .describe('Gateway, HOST:PORT'),
          ...perInput,
        }),
      ],
      { error: 'expected {serial, baud}, {udp} or {tcp: "host:port"}' },
    ),
  )
  .max(16)
  .default([])
  .describe('Where sentences come from');

const watch = z
  .strictObject({
    circleRadius: measure('length', { min: 5, max: 2000 })
      .optional()
      .describe('Fixed circle; computed when left out'),
    margin: measure('length', { min: 0, max: 200 }).default(6).describe('Added to a computed circle'),
    depthBelow: measure('length', { min: 0, max: 500 }).optional(),
    depthAbove: measure('length', { min: 0, max: 500 }).optional(),
    underKeelBelow: measure('length', { min: 0, max: 50 })
      .optional()
      .describe('Caution when low water will leave less under the keel; 0.5 m when left out'),
    windAbove: measure('speed', { min: 0, max: 80 }).optional(),
    windShift: measure('angle', { min: 10, max: 180 }).optional(),
    deviation: z
      .array(z.tuple([measure('angle', { min: 0, max: 360 }), measure('angle', { min: -45, max: 45 })]))
      .default([])
      .describe('Compass deviation card: [magnetic heading, deviation east positive]'),
  })
  .prefault({})
  .describe('Limits of the watch');

const weigh = z
  .strictObject({
    approachSpeed: measure('speed', { min: 0.2, max: 1.5 })
      .optional()
      .describe('Speed through the water on the way to the anchor; 0.7 m/s when left out'),
    slowWithin: measure('length', { min: 1, max: 20 })
      .optional()
      .describe('Slow down with so much cable left above the height of the roller; 4 m when left out'),
    windlassRate: measure('speed', { min: 0.03, max: 0.8 })
      .optional()
      .describe('How fast the windlass heaves, m/s'),
  })
  .prefault({})
  .describe('How this crew weighs');

const server = z
  .strictObject({
    port: z.int().min(0).max(65_535).default(8274),
    host: z.string().default('0.0.0.0').describe('Address to listen on; 127.0.0.1 keeps other machines out'),
    names: z.array(z.string()).default([]).describe('Further host names that pages may be opened under'),
    access,
    tls,
    mdns,
  })
  .prefault({});

export const configSchema = z.strictObject({
  boat,
  cable: cable.prefault({}),
  instruments,
  watch,
  weigh,
  server,
  raise,
  journal,
  supervise,
});

export type Config = z.output<typeof configSchema>;
export type Instrument = Config['instruments'][number];
