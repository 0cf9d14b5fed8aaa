import { z } from 'zod';
import type { Estimate, LatLon } from '../quantities/estimate.ts';
import { same } from './same.ts';

/** Seconds of the UNIX epoch on the engine's timeline. */
export const time = z.number().describe('UNIX seconds');
export const degreesTrue = z.number().describe('degrees true');
export const count = z.int().min(0);

export const latLon = same<LatLon>()(
  z.object({ lat: z.number().min(-90).max(90), lon: z.number().min(-180).max(180) }),
).meta({ id: 'LatLon', description: 'WGS-84 degrees, north and east positive' });

export const estimate = same<Estimate>()(z.object({ value: z.number(), sigma: z.number() })).meta({
  id: 'Estimate',
  description: 'A value that is not known exactly, with its standard deviation in the same unit',
});

/** A value with its age and source, as `Known<T>`. */
export const known = <S extends z.ZodType>(value: S) =>
  z.object({ value, at: time, age: z.number().describe('seconds'), source: z.string() });
