import { z } from 'zod';
import type { WatchChange } from '../commands.ts';
import { SIGNAL_PATTERN, SIGNALS_ALLOWED } from '../signals.ts';
import { alertState } from './alert.ts';
import { count } from './quantities.ts';
import { same } from './same.ts';
import { weighView } from './state.ts';
import { mark, trackPoint, watchView } from './watch.ts';

/** Bodies and answers of the HTTP calls. What is possible at all is checked here, what makes sense now by the engine. */

export const markRequest = z
  .union(
    [
      z.strictObject({}).describe('The anchor is let go here and now: the mark is the bow roller'),
      z.strictObject({ lat: z.number().min(-90).max(90), lon: z.number().min(-180).max(180) }),
      z
        .strictObject({ bearing: z.number().min(0).max(360), distance: z.number().min(0).max(1000) })
        .describe('The anchor bears so, degrees true, at so many metres from the roller now'),
      z.strictObject({ fromTrack: z.literal(true) }).describe('Find it from the arc that the boat has swept'),
    ],
    { error: 'expected {}, {lat, lon}, {bearing, distance} or {fromTrack: true}' },
  )
  .meta({ id: 'MarkRequest' });

const limit = (least: number, most: number, unit: string) =>
  z.number().min(least).max(most).nullable().exactOptional().describe(`${unit}; null: not watched`);

export const watchRequest = z
  .strictObject({
    ...same<WatchChange>()(
      z.strictObject({
        veered: z.number().min(1).max(1000).exactOptional().describe('Cable out beyond the roller, metres'),
        circleRadius: z
          .number()
          .min(1)
          .max(5000)
          .nullable()
          .exactOptional()
          .describe('Metres; null: computed'),
        limits: z
          .strictObject({
            depthBelow: limit(0, 500, 'metres'),
            depthAbove: limit(0, 500, 'metres'),
            windAbove: limit(0.5, 80, 'm/s'),
            windShift: limit(1, 180, 'degrees'),
          })
          .exactOptional(),
      }),
    ).shape,
    sectors: z.unknown().describe('Not built in this version: answered with 501').exactOptional(),
  })
  .refine((change) => Object.keys(change).length > 0, {
    error: 'expected at least one of veered, circleRadius, limits',
  })
  .meta({ id: 'WatchRequest', description: 'Absent: unchanged' });

export const signalRequest = z
  .strictObject({
    signal: z.string().regex(SIGNAL_PATTERN, `expected one of ${SIGNALS_ALLOWED}`),
  })
  .meta({ id: 'SignalRequest', description: `Foredeck to helm: ${SIGNALS_ALLOWED}` });

/** Query values are text; a blank is not a zero. */
const fromText = (schema: z.ZodNumber) =>
  z.preprocess((value) => (typeof value === 'string' && value.trim() !== '' ? Number(value) : value), schema);

export const trackQuery = z
  .strictObject({
    from: fromText(z.number().describe('UNIX seconds')).optional(),
    to: fromText(z.number().describe('UNIX seconds')).optional(),
    step: fromText(z.number().min(0).max(86_400).describe('Seconds between points at least')).optional(),
  })
  .refine(({ from, to }) => from === undefined || to === undefined || from <= to, {
    error: 'expected from ≤ to',
    path: ['from'],
  });

export const markAnswer = z.object({ mark }).meta({ id: 'MarkAnswer' });
export const watchAnswer = z.object({ watch: watchView }).meta({ id: 'WatchAnswer' });
export const weighAnswer = z.object({ weigh: weighView, watch: watchView }).meta({ id: 'WeighAnswer' });
export const signalAnswer = z
  .object({ number: count.describe('Number of the signal, as the helm page has shown it') })
  .meta({ id: 'SignalAnswer' });
export const alertAnswer = z.object({ id: z.string(), state: alertState }).meta({ id: 'AlertAnswer' });
export const trackAnswer = z.object({ track: z.array(trackPoint) }).meta({ id: 'TrackAnswer' });
export const healthAnswer = z
  .object({ ok: z.literal(true), reasons: z.array(z.string()) })
  .meta({ id: 'HealthAnswer' });

export type MarkRequest = z.output<typeof markRequest>;
export type WatchRequest = z.output<typeof watchRequest>;
export type SignalRequest = z.output<typeof signalRequest>;
export type MarkAnswer = z.output<typeof markAnswer>;
export type SignalAnswer = z.output<typeof signalAnswer>;
