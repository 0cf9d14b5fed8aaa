import type { NightAlert } from '../../../shared/logbook/night.ts';

/** When an alert was first a warning or an alarm: a caution may have grown into it. */
export const loudAt = ({ changes, from }: NightAlert): number =>
  changes.find(({ priority, state }) => priority !== 'caution' && state !== 'normal')?.at ?? from;
