import { effect, type Signal, signal } from '@preact/signals';

/** What this screen remembers for itself: looks and units. Nothing here reaches the watch. */

export type Palette = 'day' | 'night';
export type LengthUnit = 'm' | 'ft';
export type SpeedUnit = 'kn' | 'm/s';

/** Private browsing and full storage throw; the page then works and forgets. */
export function read(key: string): string | null {
  try {
    return localStorage.getItem(`hawse.${key}`);
  } catch {
    return null;
  }
}

export function write(key: string, value: string): void {
  try {
    localStorage.setItem(`hawse.${key}`, value);
  } catch {}
}

function remembered<T extends string>(key: string, allowed: readonly T[], otherwise: T): Signal<T> {
  const found = read(key) as T | null;
  const kept = signal(found !== null && allowed.includes(found) ? found : otherwise);
  effect(() => write(key, kept.value));
  return kept;
}

const prefersDay = matchMedia('(prefers-color-scheme: light)').matches;

export const palette = remembered<Palette>('palette', ['day', 'night'], prefersDay ? 'day' : 'night');
export const lengthUnit = remembered<LengthUnit>('length', ['m', 'ft'], 'm');
export const speedUnit = remembered<SpeedUnit>('speed', ['kn', 'm/s'], 'kn');
/** A caution is no reason to wake anybody; who is awake may like to hear it. */
export const cautionSound = remembered<'note' | 'none'>('caution-sound', ['note', 'none'], 'note');

/** Brightness of the night palette, per cent. */
export const DIMMEST = 20;
const kept = Number(read('dimmer'));
export const dimmer = signal(kept >= DIMMEST && kept <= 100 ? kept : 100);
effect(() => write('dimmer', String(dimmer.value)));

/** What the other screens call this one. */
export const screenName = signal(read('name') ?? guessName());
effect(() => write('name', screenName.value));

function guessName(): string {
  const mobile = /Mobi|Android|iPhone/.test(navigator.userAgent);
  if (mobile) return 'phone';
  return navigator.maxTouchPoints > 1 ? 'tablet' : 'computer';
}
