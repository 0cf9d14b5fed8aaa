import { csv } from './csv.ts';
import { geojson } from './geojson.ts';
import { gpx } from './gpx.ts';

/** Formats that a night's track can be written in. */
export const FORMATS = { gpx, geojson, csv } as const;
