import { reciprocal, turn } from '../quantities/angle.ts';

/** Up to this far apart wind and stream count as pushing the same way, degrees. */
const TOGETHER = 30;
/** She lies to one of them when within this share of the angle between them; she lies to neither when further than ASTRAY from both. */
const SHARE = 1 / 3;
const ASTRAY = 60;

/**
 * Angle from where the wind pushes to where the stream pushes, −180 < a ≤ 180, clockwise positive; ±180: straight against each
 * other. `windFrom`, `set`: degrees true.
 */
export const divergence = (windFrom: number, set: number): number => turn(reciprocal(windFrom), set);

/**
 * Which of wind and stream a boat lies to that heads `heading` (degrees true; the mean over her sheer, or a predicted one):
 * `both` when they push within 30° of each other, or when she lies between them; undefined when she points at neither.
 */
export function lyingTo(
  heading: number,
  windFrom: number,
  set: number,
): 'wind' | 'stream' | 'both' | undefined {
  const between = divergence(windFrom, set);
  const off = turn(windFrom, heading);
  const offStream = turn(reciprocal(set), heading);
  if (Math.min(Math.abs(off), Math.abs(offStream)) > ASTRAY && !isBetween(off, between)) return undefined;
  if (Math.abs(between) <= TOGETHER) return 'both';
  const share = Math.abs(off) / (Math.abs(off) + Math.abs(offStream));
  if (share < SHARE) return 'wind';
  return share > 1 - SHARE ? 'stream' : 'both';
}

/** From here on wind and stream oppose each other so nearly that either side is between them, degrees. */
const OPPOSED = 150;

/** Whether she points into the smaller angle between wind and stream. */
const isBetween = (off: number, between: number): boolean =>
  Math.abs(between) >= OPPOSED ||
  (Math.sign(off) === Math.sign(between) && Math.abs(off) <= Math.abs(between));
