import { z } from 'zod';
import type {
  Checksum,
  Gap,
  Night,
  NightAlert,
  NightSettings,
  NightSummary,
  Place,
  Sample,
  StoryLine,
} from '../logbook/night.ts';
import { alertKind, alertPriority, alertState } from './alert.ts';
import { count, degreesTrue, latLon, time } from './quantities.ts';
import { same } from './same.ts';
import { strict } from './strict.ts';
import { boat, cable } from './vessel.ts';
import { cableState, limits, mark } from './watch.ts';

/** The logbook: nights, places, and what may be asked of them. */

const range = z.object({ least: z.number(), most: z.number() });
const rejected = z.object({ checksum: count, malformed: count, unknown: count });
const gapKind = z.enum(['silence', 'position', 'doubtful', 'heading', 'wind', 'depth']);

export const nightSummary = same<NightSummary>()(
  z.object({
    id: z.string(),
    origin: z.enum(['watch', 'import']),
    simulated: z.string().exactOptional(),
    place: z.string().exactOptional(),
    notes: z.string().exactOptional(),
    from: time,
    to: time.describe('When the anchor was aweigh; absent: still at anchor').exactOptional(),
    upTo: time.describe('How far this record goes'),
    boat: z.string(),
    mark,
    marks: count,
    veered: range.exactOptional(),
    depth: range.exactOptional(),
    windMost: z.object({ at: time, speed: z.number(), from: degreesTrue }).exactOptional(),
    streamMost: z.object({ at: time, drift: z.number(), set: degreesTrue }).exactOptional(),
    farthest: z
      .object({ at: time, distance: z.number(), bearing: degreesTrue.exactOptional() })
      .exactOptional(),
    movedMost: z
      .object({ at: time, moved: z.number(), sigma: z.number(), probability: z.number() })
      .exactOptional(),
    load: z
      .object({
        at: time,
        worst: z.number().describe('N'),
        workingLoad: z.number().exactOptional(),
        part: z.number().exactOptional(),
        steady: z.object({ at: time, value: z.number(), sigma: z.number() }).exactOptional(),
      })
      .exactOptional(),
    alerts: z.object({
      alarms: count,
      warnings: count,
      cautions: count,
      kinds: z.partialRecord(alertKind, count),
    }),
    gaps: z.object({ count, seconds: z.partialRecord(gapKind, z.number()) }),
    sentences: count,
    rejected,
    versions: z.array(z.string()),
    rebuilt: z.object({ exact: z.boolean() }).exactOptional(),
    doubts: z.array(z.string()).exactOptional(),
  }),
).meta({ id: 'NightSummary', description: 'One anchorage, from mark to aweigh' });

const gap = same<Gap>()(
  z.object({ kind: gapKind, from: time, to: time.exactOptional(), why: z.string().exactOptional() }),
);

const nightAlert = same<NightAlert>()(
  z.object({
    id: z.string(),
    kind: alertKind,
    priority: alertPriority,
    text: z.string(),
    value: z.number().exactOptional(),
    limit: z.number().exactOptional(),
    from: time,
    to: time.exactOptional(),
    acknowledgedBy: z.string().exactOptional(),
    acknowledgedAt: time.exactOptional(),
    changes: z.array(
      z.object({
        at: time,
        state: alertState,
        priority: alertPriority,
        text: z.string(),
        by: z.string().exactOptional(),
      }),
    ),
  }),
);

const nightSettings = same<NightSettings>()(
  z.object({
    boat,
    cable,
    limits,
    circle: z.object({ radius: z.number(), computed: z.boolean(), explanation: z.string() }).exactOptional(),
    veered: z.number().exactOptional(),
  }),
);

const storyLine = same<StoryLine>()(
  z.object({
    at: time,
    kind: z.enum(['mark', 'aweigh', 'note', 'signal', 'weigh']),
    by: z.string().exactOptional(),
    text: z.string(),
  }),
);

const metres = z.number().exactOptional();

const sample = same<Sample>()(
  z.object({
    at: time,
    lat: z.number().exactOptional(),
    lon: z.number().exactOptional(),
    distance: metres,
    distanceMost: metres,
    bearing: degreesTrue.exactOptional(),
    heading: degreesTrue.exactOptional(),
    depth: metres,
    depthLeast: metres,
    windSpeed: z.number().exactOptional(),
    windMost: z.number().exactOptional(),
    windFrom: degreesTrue.exactOptional(),
    drift: z.number().exactOptional(),
    set: degreesTrue.exactOptional(),
    reach: metres,
    cable: cableState.exactOptional(),
    moved: metres,
    movedBearing: degreesTrue.exactOptional(),
    sigma: metres,
    probability: z.number().exactOptional(),
    veered: metres,
    circle: metres,
    load: z.number().describe('N').exactOptional(),
    phase: z.enum(['watching', 'weighing']).exactOptional(),
    doubtful: z.literal(true).exactOptional(),
  }),
);

const checksum = same<Checksum>()(
  z.object({ segment: z.string(), from: time, to: time, lines: count, bytes: count, sha256: z.string() }),
);

export const nightAnswer = same<Night>()(
  z.object({
    summary: nightSummary,
    alerts: z.array(nightAlert),
    story: z.array(storyLine),
    step: z.number().describe('Seconds between samples'),
    strips: z.array(sample),
    settings: nightSettings,
    gaps: z.array(gap),
    checksums: z.array(checksum),
  }),
).meta({ id: 'Night' });

export const nightsAnswer = z
  .object({
    nights: z.array(nightSummary).describe('Newest first'),
    total: count.describe('Nights in the logbook'),
  })
  .meta({ id: 'NightsAnswer' });

/** Query values are text; a blank is not a zero. */
const fromText = <S extends z.ZodType>(schema: S) =>
  z.preprocess((value) => (typeof value === 'string' && value.trim() !== '' ? Number(value) : value), schema);

export const NIGHT_ID = /^\d{4}-\d\d-\d\dT\d{4}-\d{1,6}$/;
const nightId = z.string().regex(NIGHT_ID, 'expected an id as in the list of nights, e.g. 2026-11-25T2010-1');

export const nightsQuery = strict({
  limit: fromText(z.int().min(1).max(5000).describe('At most so many')).optional(),
  before: nightId.optional().describe('Only nights before this one'),
});
export const nightParams = z.strictObject({ id: nightId });

export const EXPORTS = ['gpx', 'geojson', 'csv', 'nmea'] as const;
export type ExportAs = (typeof EXPORTS)[number];
export const exportQuery = strict({ as: z.enum(EXPORTS) });

export const nightRequest = strict({
  place: z.string().max(80).nullable().exactOptional().describe('Name of the place; null: none'),
  notes: z.string().max(4000).nullable().exactOptional().describe('null: none'),
})
  .refine((change) => Object.keys(change).length > 0, { error: 'expected place or notes' })
  .meta({ id: 'NightRequest', description: 'Absent: unchanged' });

export const nightChanged = z.object({ summary: nightSummary }).meta({ id: 'NightChanged' });

/** The body of an import is the recording itself; what goes with it is in the query. */
export const importQuery = strict({
  name: z.string().max(200).optional().describe('Name of the file, for words only'),
  anchorage: z.string().max(8192).optional().describe('An anchorage file as JSON text'),
  veered: fromText(z.number().min(1).max(1000).optional()).describe(
    'Metres of cable, to find the mark from the track when there is no anchorage file',
  ),
  lat: fromText(z.number().min(-90).max(90).optional()).describe('Of the mark, when it is known'),
  lon: fromText(z.number().min(-180).max(180).optional()),
});

export const importAnswer = z
  .object({
    summary: nightSummary,
    notes: z.array(z.string()).describe('What was doubtful about the recording'),
  })
  .meta({ id: 'ImportAnswer' });

export const place = same<Place>()(
  latLon.extend({
    name: z.string().exactOptional(),
    distance: z.number(),
    bearing: degreesTrue,
    nights: z.array(
      z.object({
        id: z.string(),
        from: time,
        to: time.exactOptional(),
        mark: latLon.extend({ sigma: z.number() }),
        veered: z.number().exactOptional(),
        depth: range.exactOptional(),
        windMost: z.number().exactOptional(),
        farthest: z.number().exactOptional(),
        alarms: count,
        dragged: z.boolean(),
        notes: z.string().exactOptional(),
      }),
    ),
    depth: range.exactOptional(),
    windMost: z.number().exactOptional(),
  }),
).meta({ id: 'Place', description: 'Where she has lain before' });

export const placesQuery = strict({
  near: z
    .string()
    .regex(/^-?\d+(\.\d+)?,-?\d+(\.\d+)?$/, 'expected LAT,LON in degrees')
    .optional()
    .describe('LAT,LON; left out: where she is now'),
  within: fromText(z.number().min(1).max(20_000_000).optional()).describe('Metres; left out: 556 (0.3 nmi)'),
});
export const placesAnswer = z
  .object({ places: z.array(place).describe('Nearest first') })
  .meta({ id: 'PlacesAnswer' });

export type NightsAnswer = z.output<typeof nightsAnswer>;
export type NightRequest = z.output<typeof nightRequest>;
export type ImportQuery = z.output<typeof importQuery>;
export type PlacesAnswer = z.output<typeof placesAnswer>;
