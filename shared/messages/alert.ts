import { z } from 'zod';
import { ALERT_KINDS, type Alert } from '../alerts/alert.ts';
import { time } from './quantities.ts';
import { same } from './same.ts';

export const alertKind = z.enum(ALERT_KINDS);
export const alertPriority = z.enum(['alarm', 'warning', 'caution']);
export const alertState = z.enum([
  'active-unacknowledged',
  'active-silenced',
  'active-acknowledged',
  'rectified-unacknowledged',
  'normal',
]);

export const alert = same<Alert>()(
  z.object({
    id: z.string(),
    kind: alertKind,
    subject: z.string().exactOptional(),
    priority: alertPriority,
    state: alertState,
    text: z.string(),
    value: z.number().exactOptional(),
    limit: z.number().exactOptional(),
    since: time,
    stateSince: time,
    acknowledgedBy: z.string().exactOptional(),
    acknowledgedAt: time.exactOptional(),
    escalated: z.boolean().exactOptional(),
  }),
).meta({ id: 'Alert', description: 'One situation, one alert' });
