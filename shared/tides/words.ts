import type { TideView } from './view.ts';

const decimetres = (m: number): string => `${m.toFixed(1)} m`;

/** Hours and minutes, to ten minutes. */
function until(seconds: number): string {
  const tens = Math.max(0, Math.round(seconds / 600));
  const hours = Math.floor(tens / 6);
  const minutes = (tens % 6) * 10;
  if (tens === 0) return 'Now';
  return hours === 0 ? `In ${minutes} min` : minutes === 0 ? `In ${hours} h` : `In ${hours} h ${minutes} min`;
}

/** What `low-water` says. */
export function lowWater(least: TideView['least'], limit: number, now: number): string {
  if (!least)
    return `Low water will leave less than ${decimetres(limit)} under the keel, when last seen; there is no depth now.`;
  const { at, underKeel } = least;
  return underKeel < 0
    ? `${until(at - now)}, at low water, she will be aground where she lies: ${decimetres(-underKeel)} less than her draft.`
    : `${until(at - now)}, at low water, ${decimetres(underKeel)} under the keel where she lies; the limit is ${decimetres(limit)}.`;
}
