import { readFileSync } from 'node:fs';
import { z } from 'zod';
import type { Settings } from '../../shared/settings.ts';
import type { Mark } from '../../shared/watch/view.ts';
import { ConfigError, describeFaults, inPlainWords } from './faults.ts';
import { known } from './settings.ts';

const positive = z.number().positive();

/** The anchorage file of `hawse replay --anchorage`: SI numbers, only mark and veered length are required. */
const schema = z.strictObject({
  boat: z
    .strictObject({
      name: z.string().optional(),
      hull: z.enum(['monohull', 'catamaran', 'trimaran']).optional(),
      length: positive.max(60).optional(),
      beam: positive.max(30).optional(),
      draft: positive.max(10).optional(),
      roller: z.strictObject({ height: z.number().min(0).max(6) }).optional(),
      antenna: z
        .strictObject({
          aftOfRoller: z.number().min(-10).max(60),
          toStarboard: z.number().min(-15).max(15).default(0),
        })
        .optional(),
      sounder: z
        .strictObject({
          belowWaterline: z.number().min(0).max(10).optional(),
          aftOfRoller: z.number().min(-10).max(60).default(0),
        })
        .optional(),
      windage: z.strictObject({ area: positive.max(500).optional() }).optional(),
      displacement: positive.optional(),
    })
    .prefault({}),
  cable: z.strictObject({
    veered: positive.max(1000),
    massPerMetre: positive.max(50).optional(),
    length: positive.optional(),
    rope: z.number().min(0).optional(),
    workingLoad: positive.optional(),
  }),
  mark: z.strictObject({
    lat: z.number().min(-90).max(90),
    lon: z.number().min(-180).max(180),
    at: z.number().optional(),
    sigma: positive.max(500).optional(),
  }),
  circle: z
    .strictObject({ radius: positive.max(5000).optional(), margin: z.number().min(0).optional() })
    .prefault({}),
  limits: z
    .strictObject({
      depthBelow: z.number().min(0).optional(),
      depthAbove: z.number().min(0).optional(),
      underKeelBelow: z.number().min(0).optional(),
      windAbove: z.number().min(0).optional(),
      windShift: z.number().min(1).max(180).optional(),
    })
    .prefault({}),
});

export type Anchorage = z.output<typeof schema>;

/** Reads and checks an anchorage file. Throws ConfigError that names every fault. */
export function loadAnchorage(file: string): Anchorage {
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    throw new ConfigError(`${file}: ${(error as Error).message}`);
  }
  return readAnchorage(text, file);
}

/** The same of its text; `name` is what faults call it. */
export function readAnchorage(text: string, name: string): Anchorage {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch (error) {
    throw new ConfigError(`${name}: cannot be read as JSON: ${(error as Error).message}`);
  }
  const checked = schema.safeParse(parsed, { error: inPlainWords });
  if (!checked.success) throw new ConfigError(describeFaults(name, checked.error));
  return checked.data;
}

/** Settings of the boat at hand (or of a common cruising boat) overlaid by what the anchorage file says. */
export function withAnchorage(settings: Settings, anchorage: Anchorage): Settings {
  const { boat, cable, circle, limits } = anchorage;
  return {
    ...settings,
    boat: { ...settings.boat, ...known(withoutUndefinedMembers(boat)) } as Settings['boat'],
    cable: { ...settings.cable, ...known(cable) },
    circle: {
      margin: circle.margin ?? settings.circle.margin,
      ...known({ radius: circle.radius ?? settings.circle.radius }),
    },
    limits: { ...settings.limits, ...known(limits) },
  };
}

function withoutUndefinedMembers(boat: Anchorage['boat']): Anchorage['boat'] {
  return { ...boat, ...(boat.sounder ? { sounder: known(boat.sounder) as typeof boat.sounder } : {}) };
}

/** The mark that the file tells; its uncertainty when not told is that of one consumer fix, 3 m (common practice, no source). */
export function markOf(anchorage: Anchorage, from: number): Mark {
  const { lat, lon, at, sigma } = anchorage.mark;
  return { lat, lon, at: at ?? from, sigma: sigma ?? 3, by: 'anchorage file', how: 'anchorage-file' };
}
