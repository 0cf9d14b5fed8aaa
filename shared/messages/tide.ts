import { z } from 'zod';
import type { TideTold, TideView } from '../tides/view.ts';
import { time } from './quantities.ts';
import { same } from './same.ts';
import { strict } from './strict.ts';

const metres = z.number();

export const tideView = same<TideView>()(
  z.object({
    from: z.enum(['table', 'constituents']),
    place: z.string().exactOptional(),
    source: z.string().exactOptional(),
    licence: z.string().exactOptional(),
    by: z.string(),
    height: metres.describe('Above the datum of what was told').exactOptional(),
    rising: z.number().describe('Metres an hour').exactOptional(),
    unknown: z.string().exactOptional(),
    curve: z.object({ from: time, step: z.number(), heights: z.array(metres) }),
    turns: z.array(z.object({ at: time, height: metres, high: z.boolean() })),
    least: z.object({ at: time, depth: metres, underKeel: metres }).exactOptional(),
    ends: time.exactOptional(),
  }),
).meta({ id: 'Tide', description: 'The tide as reckoned from what people told; not for navigation' });

const words = (most: number) => z.string().trim().min(1).max(most);

export const tideRequest = same<TideTold>()(
  strict({
    turns: z
      .array(strict({ at: time, height: metres.min(-5).max(20) }))
      .min(2)
      .max(120)
      .describe('High and low waters of a tide table, UNIX seconds and metres above its datum')
      .exactOptional(),
    harmonic: strict({
      constituents: z
        .array(
          strict({
            name: words(12),
            amplitude: metres.min(0).max(20),
            phase: z.number().min(-360).max(360).describe('Phase lag of GMT, degrees'),
          }),
        )
        .min(1)
        .max(200),
      meanLevel: metres.min(-20).max(20).describe('Above datum'),
    }).exactOptional(),
    place: words(80).exactOptional(),
    source: words(600).exactOptional(),
    licence: words(400).exactOptional(),
  }),
).meta({ id: 'TideRequest', description: 'Either high and low waters, or constituents' });

export const tideAnswer = z.object({ tide: tideView.exactOptional() }).meta({ id: 'TideAnswer' });

export const stationsQuery = strict({
  lat: z.coerce.number().min(-90).max(90).describe('Degrees north'),
  lon: z.coerce.number().min(-180).max(180).describe('Degrees east'),
});
export const stationQuery = strict({ id: z.string().min(1).max(120) });

export const stationsAnswer = z
  .object({
    stations: z.array(
      z.object({
        id: z.string(),
        name: z.string(),
        distance: metres,
        lat: z.number(),
        lon: z.number(),
        licence: z.string(),
        attribution: z.string(),
      }),
    ),
  })
  .meta({ id: 'StationsAnswer' });
export const stationAnswer = z.object({ tide: tideRequest }).meta({ id: 'StationAnswer' });
