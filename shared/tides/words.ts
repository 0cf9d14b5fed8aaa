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
export function lowWater(
  { at, underKeel }: NonNullable<TideView['least']>,
  limit: number,
  now: number,
): string {
  return underKeel < 0
    ? `${until(at - now)}, at low water, she will be aground where she lies: ${decimetres(-underKeel)} less than her draft.`
    : `${until(at - now)}, at low water, ${decimetres(underKeel)} under the keel where she lies; the limit is ${decimetres(limit)}.`;
}

export function lowWaterInCircle(
  { at, underKeel, sigma, sounded }: { at: number; underKeel: number; sigma: number; sounded: boolean },
  limit: number,
  now: number,
): string {
  const how = sounded ? 'sounded' : 'not sounded, but near soundings';
  return `${until(at - now)}, at low water, ${underKeel.toFixed(1)} ± ${decimetres(sigma)} under the keel in the shoalest part of her circle (${how}); the limit is ${decimetres(limit)}.`;
}

export const lowWaterUnseen = (limit: number): string =>
  `Low water will leave less than ${decimetres(limit)} under the keel, when last seen; there is no depth now.`;
