import type { PageView } from './state.ts';

/** What keeps a phone's screen on: the browser's lock; a person's word that it never locks; or nothing. */
export const WAKE_LOCKS = ['held', 'as-told', 'lost', 'absent'] as const;
export type WakeLock = (typeof WAKE_LOCKS)[number];

/** Why an armed phone would not wake anybody at this moment, the gravest first. */
export type Lack = 'silent' | 'hidden' | 'sound' | 'wake-lock' | 'battery';

/** A phone off the charger with less than this share left will not last the night. */
export const BATTERY_LOW = 0.15;

type Health = Pick<PageView, 'silent' | 'visible' | 'sound' | 'wakeLock' | 'charging' | 'battery'>;

export function lacks({ silent, visible, sound, wakeLock, charging, battery }: Health): Lack[] {
  // What a page told before it fell silent says nothing about it now.
  if (silent) return ['silent'];
  const found: Lack[] = [];
  if (!visible) found.push('hidden');
  if (!sound) found.push('sound');
  if (wakeLock !== 'held' && wakeLock !== 'as-told') found.push('wake-lock');
  if (charging === false && battery !== undefined && battery <= BATTERY_LOW) found.push('battery');
  return found;
}

/** Would this page wake a sleeper now? Only what its own script has told within the last three pulses counts. */
export const wouldWake = (page: Health & Pick<PageView, 'armed'>): boolean =>
  page.armed && lacks(page).length === 0;
