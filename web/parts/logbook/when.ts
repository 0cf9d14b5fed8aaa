/** Moments of recorded nights. They are told by the clock of the boat's computer as it was then, in this device's zone. */

const format = (options: Intl.DateTimeFormatOptions) => {
  // Made once: it is asked for at every frame of a night that is played.
  const made = new Intl.DateTimeFormat('en-GB', options);
  return (at: number): string => made.format(at * 1000);
};

const HOURS: Intl.DateTimeFormatOptions = { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' };

export const hour = format(HOURS);
export const second = format({ ...HOURS, second: '2-digit' });
export const day = format({ weekday: 'short', day: 'numeric', month: 'short', year: 'numeric' });

/** Seconds of the night in words: 42 s, 12 min, 9 h 12 min. */
export function lasting(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  if (seconds < 100) return `${Math.round(seconds)}\u00a0s`;
  if (minutes < 60) return `${minutes}\u00a0min`;
  const rest = minutes % 60;
  return `${Math.floor(minutes / 60)}\u00a0h${rest ? ` ${rest}\u00a0min` : ''}`;
}
