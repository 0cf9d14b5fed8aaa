import type { Config } from './schema.ts';
import { configSchema } from './schema.ts';

/** A common cruising boat for replays and rehearsals when no config tells the real one. */
export const commonBoat = (): Config =>
  configSchema.parse({
    boat: { name: 'a common cruising boat', length: 12, beam: 4, draft: 1.9, antenna: { aftOfRoller: 9 } },
  });
