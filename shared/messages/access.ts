import { z } from 'zod';
import { type KeyView, ROLES } from '../access.ts';
import { time } from './quantities.ts';
import { same } from './same.ts';
import { strict } from './strict.ts';

/** Who may do what: pairing a phone, and the keys that were given. */

export const role = z.enum(ROLES).describe('Each may do all that those before it may');

const name = z
  .string()
  .min(1)
  .max(200)
  .refine((told) => /[^\p{C}\p{Z}]/u.test(told), { error: 'expected at least one letter' })
  .describe('Of the device or person; commands are logged under it. Cut to 40 letters');

export const pairRequest = strict({
  code: z.string().min(1).max(40).describe('As the boat’s computer shows it; blanks and case do not matter'),
  name,
  role: role.exactOptional(),
}).meta({ id: 'PairRequest', examples: [{ code: 'ABCD-EFGH', name: 'Skipper’s phone' }] });

export const keyRequest = strict({ name, role }).meta({
  id: 'KeyRequest',
  description: 'A key for a program: it is told once, in the answer',
});

export const pairingRequest = strict({
  role: role.exactOptional().describe('The most that the phone may get; command when left out'),
}).meta({ id: 'PairingRequest' });

export const keyView = same<KeyView>()(
  z.object({
    id: z.string(),
    name: z.string(),
    role,
    created: time,
    lastUsed: time.exactOptional().describe('To the hour'),
  }),
).meta({ id: 'Key', description: 'Never the key itself' });

const pairing = z.object({
  code: z.string(),
  role,
  seconds: z.int().describe('How much longer'),
  addresses: z.array(z.string()).describe('To open on the phone, the code in them'),
});

export const pairAnswer = z.object({ key: keyView }).meta({ id: 'PairAnswer' });
export const madeAnswer = z
  .object({ key: keyView, bearer: z.string().describe('For the header: Authorization: Bearer …') })
  .meta({ id: 'MadeAnswer' });
export const pairingAnswer = pairing.meta({ id: 'PairingAnswer' });
export const keysAnswer = z
  .object({
    keys: z.array(keyView),
    own: z.string().exactOptional().describe('The id of the key of whoever asks'),
    pairing: pairing.exactOptional(),
  })
  .meta({ id: 'KeysAnswer' });
export const takenAwayAnswer = z.object({ key: keyView }).meta({ id: 'TakenAwayAnswer' });

export type KeysAnswer = z.output<typeof keysAnswer>;
export type PairingAnswer = z.output<typeof pairingAnswer>;
