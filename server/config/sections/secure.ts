import { z } from 'zod';

/** hawse.yaml `server.tls` and `server.mdns`: the secure origin, and the boat's name on her network. */
export const tls = z
  .union([
    z.literal(false),
    z.strictObject({
      port: z
        .int()
        .min(0)
        .max(65_535)
        .optional()
        .describe('Port of https; that of http and one more when left out'),
    }),
  ])
  .prefault({})
  .describe('https beside http, by an authority of the boat’s own; false: none');

export const mdns = z
  .union([
    z.literal(false),
    z.string().regex(/^[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?$/, 'expected small letters, digits and -'),
  ])
  .default('hawse')
  .describe('The boat’s computer answers to this name with .local behind it; false: it does not');
