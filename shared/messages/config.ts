import { z } from 'zod';
import type { ConfigChange, ConfigField, ConfigSet, ConfigTold } from '../config.ts';
import type { Fitted, Fitting } from '../fitting/view.ts';
import { same } from './same.ts';
import { strict } from './strict.ts';

const field = same<ConfigField>()(
  z.object({
    key: z.string(),
    value: z.union([z.number(), z.string()]).exactOptional().describe('What holds now, SI'),
    written: z
      .string()
      .exactOptional()
      .describe('What the file says, with its unit; absent: it says nothing'),
  }),
).meta({ id: 'ConfigField' });

const change = same<ConfigChange>()(
  z.object({
    key: z.string(),
    from: z.string().exactOptional(),
    to: z.string().exactOptional(),
    does: z.string().describe('What the change does, in words'),
    when: z.enum(['at-once', 'restart']),
  }),
).meta({ id: 'ConfigChange' });

const estimate = z.object({ value: z.number(), sigma: z.number() });
const fitted = same<Fitted>()(
  z.object({
    told: z.number().exactOptional(),
    estimate: estimate.exactOptional(),
    offer: z.number().exactOptional().describe('Never applied by itself'),
    unknown: z.string().exactOptional(),
  }),
).meta({ id: 'Fitted' });

const fitting = same<Fitting>()(
  z.object({
    antennaAft: fitted,
    sounder: fitted,
    deviation: z.object({
      sectors: z.array(z.object({ heading: z.number(), left: estimate, seconds: z.number() })),
      offer: z.array(z.tuple([z.number(), z.number()])).exactOptional(),
      unknown: z.string().exactOptional(),
    }),
  }),
).meta({ id: 'Fitting', description: 'Figures that people gave beside what the data say of them' });

export const configAnswer = same<ConfigTold>()(
  z.object({
    file: z.string().exactOptional(),
    why: z.string().exactOptional().describe('Why nothing can be changed; absent: it can'),
    fields: z.array(field),
    instruments: z.array(z.object({ id: z.string(), says: z.string() })),
    waiting: z.array(change).describe('In the file, and not in effect before hawse is started again'),
    fitting,
  }),
).meta({ id: 'Config', description: 'What hawse.yaml says of boat, cable and watch' });

export const configRequest = z
  .object({
    ...strict({
      try: z.boolean().exactOptional().describe('Only say what it would do'),
    }).shape,
    set: same<ConfigSet>()(
      z.record(
        z.string().max(60),
        z.union([
          z.number(),
          z.string().max(200),
          z
            .array(z.tuple([z.number(), z.number()]).readonly())
            .max(72)
            .readonly(),
          z.null(),
        ]),
      ),
    ),
  })
  .strict()
  .refine(({ set }) => Object.keys(set).length >= 1 && Object.keys(set).length <= 40, {
    error: 'expected 1 to 40 keys in set',
  })
  .meta({
    id: 'ConfigRequest',
    description:
      'A number is SI; text is as written in hawse.yaml, without a unit in the one that stands there; null: not set any more',
    examples: [{ set: { 'boat.antenna.aftOfRoller': '10.5 m', 'watch.windAbove': null }, try: true }],
  });

export const configChanged = z
  .object({ done: z.boolean(), changes: z.array(change), config: configAnswer })
  .meta({ id: 'ConfigChanged' });

export type ConfigChanged = z.output<typeof configChanged>;
