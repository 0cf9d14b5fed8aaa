import { z } from 'zod';
import type { WatchChange } from '../commands.ts';
import { SIGNAL_PATTERN, SIGNALS_ALLOWED } from '../signals.ts';
import { alertState } from './alert.ts';
import { count } from './quantities.ts';
import { same } from './same.ts';
import { strict } from './strict.ts';
import { mark, trackPoint, watchView } from './watch.ts';
import { weighView } from './weigh.ts';

/** Bodies and answers of the HTTP calls. What is possible at all is checked here, what makes sense now by the engine. */

/** Members that go together, in the order of the alphabet. */
const FORMS = ['', 'lat,lon', 'bearing,distance', 'fromTrack', 'setBack'];
const FORMS_IN_WORDS = 'expected {}, {lat, lon}, {bearing, distance}, {fromTrack: true} or {setBack: true}';

/** One object and a check of its form, not a union of forms: of a union nobody can say which form was meant. */
export const markRequest = strict({
  lat: z.number().min(-90).max(90).exactOptional(),
  lon: z.number().min(-180).max(180).exactOptional(),
  bearing: z.number().min(0).max(360).exactOptional().describe('Of the anchor from the roller, degrees true'),
  distance: z.number().min(0).max(1000).exactOptional().describe('Of the anchor from the roller, metres'),
  setBack: z
    .literal(true)
    .exactOptional()
    .describe('Move the mark to where the anchor has dug in, as `watch.offer` tells'),
  fromTrack: z.literal(true).exactOptional().describe('Find the anchor from the arc that the boat has swept'),
})
  .refine((told) => FORMS.includes(Object.keys(told).sort().join()), { error: FORMS_IN_WORDS })
  .meta({
    id: 'MarkRequest',
    description: `${FORMS_IN_WORDS}; {}: the anchor is let go here and now, under the bow roller`,
    examples: [
      {},
      { lat: -16.5, lon: 179.99 },
      { bearing: 45, distance: 40 },
      { fromTrack: true },
      { setBack: true },
    ],
  });

const limit = (least: number, most: number, unit: string) =>
  z.number().min(least).max(most).nullable().exactOptional().describe(`${unit}; null: not watched`);

export const watchRequest = strict({
  ...same<WatchChange>()(
    strict({
      veered: z.number().min(1).max(1000).exactOptional().describe('Cable out beyond the roller, metres'),
      circleRadius: z.number().min(1).max(5000).nullable().exactOptional().describe('Metres; null: computed'),
      limits: strict({
        depthBelow: limit(0, 500, 'metres'),
        depthAbove: limit(0, 500, 'metres'),
        underKeelBelow: limit(0, 50, 'metres'),
        windAbove: limit(0.5, 80, 'm/s'),
        windShift: limit(1, 180, 'degrees'),
      }).exactOptional(),
      sectors: z
        .array(
          strict({
            name: z.string().trim().min(1).max(40).exactOptional(),
            from: z.number().min(0).max(360).describe('Bearing from the mark, degrees true; clockwise …'),
            to: z.number().min(0).max(360).describe('… to this one'),
            beyond: z.number().min(0).max(5000).describe('Metres from the mark'),
          }),
        )
        .max(8)
        .describe('Parts of the water that she must not enter; these and no others from now on')
        .exactOptional(),
    }),
  ).shape,
})
  .refine((change) => Object.keys(change).length > 0, {
    error: 'expected at least one of veered, circleRadius, limits, sectors',
  })
  .meta({ id: 'WatchRequest', description: 'Absent: unchanged' });

export const signalRequest = strict({
  signal: z.string().regex(SIGNAL_PATTERN, `expected one of ${SIGNALS_ALLOWED}`),
}).meta({ id: 'SignalRequest', description: `Foredeck to helm: ${SIGNALS_ALLOWED}` });

export const holdWindRequest = strict({
  angle: z
    .number()
    .min(-180)
    .max(180)
    .nullable()
    .exactOptional()
    .describe(
      'Apparent wind off the bow, degrees, starboard positive; absent: as it is now; null: none any more',
    ),
}).meta({
  id: 'HoldWindRequest',
  description: 'The apparent wind angle that the helm means to hold',
  examples: [{}, { angle: -24 }, { angle: null }],
});

/** Query values are text; a blank is not a zero. */
const fromText = (schema: z.ZodNumber) =>
  z.preprocess((value) => (typeof value === 'string' && value.trim() !== '' ? Number(value) : value), schema);

export const trackQuery = strict({
  from: fromText(z.number().describe('UNIX seconds')).optional(),
  to: fromText(z.number().describe('UNIX seconds')).optional(),
  step: fromText(z.number().min(0).max(86_400).describe('Seconds between points at least')).optional(),
}).refine(({ from, to }) => from === undefined || to === undefined || from <= to, {
  error: 'expected from ≤ to',
  path: ['from'],
});

export const markAnswer = z.object({ mark }).meta({ id: 'MarkAnswer' });
export const watchAnswer = z.object({ watch: watchView }).meta({ id: 'WatchAnswer' });
export const weighAnswer = z.object({ weigh: weighView, watch: watchView }).meta({ id: 'WeighAnswer' });
export const takenBackAnswer = z.object({ weigh: weighView.exactOptional(), watch: watchView }).meta({
  id: 'TakenBackAnswer',
  description: 'Mark and, when it was on, weighing monitor are as they were',
});
export const signalAnswer = z
  .object({
    number: count.describe('Number of the signal, as the helm page has shown it'),
    seenBy: z.string().describe('Name of the screen that has shown it').exactOptional(),
  })
  .meta({ id: 'SignalAnswer' });
export const alertAnswer = z.object({ id: z.string(), state: alertState }).meta({ id: 'AlertAnswer' });
export const trackAnswer = z.object({ track: z.array(trackPoint) }).meta({ id: 'TrackAnswer' });
export const healthAnswer = z
  .object({ ok: z.literal(true), reasons: z.array(z.string()) })
  .meta({ id: 'HealthAnswer' });

export type MarkRequest = z.output<typeof markRequest>;
