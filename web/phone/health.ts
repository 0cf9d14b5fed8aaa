import { computed } from '@preact/signals';
import { type Lack, lacks } from '../../shared/phone.ts';
import { trusted } from '../live.ts';
import { sound } from '../sound.ts';
import { loss } from '../sounding.ts';
import { armed } from './arming.ts';
import { battery } from './battery.ts';
import { visible } from './visible.ts';
import { wakeLock } from './wake.ts';

/** What the boat is told with every pulse. */
export const condition = computed(() => ({
  visible: visible.value,
  sound: sound.value === 'running',
  armed: armed.value,
  wakeLock: wakeLock.value,
  ...(battery.value && { charging: battery.value.charging, battery: battery.value.level }),
}));

/** `link`: the boat is not heard, so this page knows of no alarm but that. `figures`: she speaks, but her figures stand still. */
export type OwnLack = Lack | 'link' | 'figures';

/** Why this device would not wake anybody now, whether or not it is armed. */
export const missing = computed<OwnLack[]>(() => [
  ...lacks({ ...condition.value, silent: false }),
  ...(loss.value ? ['link' as const] : trusted.value ? [] : ['figures' as const]),
]);

/** Would it wake somebody now? */
export const wakes = computed(() => armed.value && missing.value.length === 0);
