/** Moments of recorded nights. They are told by the clock of the boat's computer as it was then, in this device's zone. */

const HOURS: Intl.DateTimeFormatOptions = { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' };
const dated = (unixSeconds: number): Date => new Date(unixSeconds * 1000);

export const hour = (at: number): string => dated(at).toLocaleTimeString('en-GB', HOURS);
export const second = (at: number): string =>
  dated(at).toLocaleTimeString('en-GB', { ...HOURS, second: '2-digit' });
export const day = (at: number): string =>
  dated(at).toLocaleDateString('en-GB', {
    weekday: 'short',
    day: 'numeric',
    month: 'short',
    year: 'numeric',
  });

/** Seconds of the night in words: 42 s, 12 min, 9 h 12 min. */
export function lasting(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  if (seconds < 100) return `${Math.round(seconds)}\u00a0s`;
  if (minutes < 60) return `${minutes}\u00a0min`;
  const rest = minutes % 60;
  return `${Math.floor(minutes / 60)}\u00a0h${rest ? ` ${rest}\u00a0min` : ''}`;
}
