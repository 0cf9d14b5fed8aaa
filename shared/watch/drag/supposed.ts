import { reachNow } from '../../cable/reach.ts';
import type { Settings } from '../../settings.ts';
import { SUPPOSED } from './model.ts';

/** The length of cable while nobody has told it: learnt from how she lies. Plain data. */
export interface Supposed {
  since: number;
  /** The farthest of each minute: metres from the mark and wind, m/s; until the length is supposed. */
  minutes: { at: number; distance: number; wind: number }[];
  veered?: number;
}

/** Seconds of lying that are still wanted before a length can be supposed; 0: it is. */
export const wanted = ({ since, veered }: Supposed, at: number): number =>
  veered === undefined ? Math.max(0, SUPPOSED.seconds - (at - since)) : 0;

/**
 * Takes in that she lies so far from the mark in this wind. After a quarter of an hour the cable is supposed as long as lets her lie
 * where she was in her farthest minutes (not the very farthest, which may be a fault of the receiver). It then stands: a boat that goes
 * farther and farther must not be believed to have ever more cable.
 */
export function suppose(
  supposed: Supposed,
  settings: Settings,
  depth: number,
  now: { at: number; distance: number; wind: number },
): void {
  if (supposed.veered !== undefined) return;
  const last = supposed.minutes.at(-1);
  if (last && now.at - last.at < 60) {
    if (now.distance > last.distance) {
      last.distance = now.distance;
      last.wind = now.wind;
    }
    return;
  }
  if (now.at - supposed.since >= SUPPOSED.seconds && supposed.minutes.length >= SUPPOSED.minutes) {
    const far = supposed.minutes.sort((a, b) => b.distance - a.distance)[SUPPOSED.passedOver]!;
    supposed.veered = lengthFor(far.distance, far.wind, depth, settings);
    supposed.minutes = [];
  } else supposed.minutes.push({ ...now });
}

/** Metres of cable with which she lies `distance` from her anchor in this wind: the reach grows with the length, so halving finds it. */
function lengthFor(distance: number, windSpeed: number, depth: number, { boat, cable }: Settings): number {
  let [low, high] = [distance, distance + SUPPOSED.most];
  for (let i = 0; i < 30; i++) {
    const middle = (low + high) / 2;
    const now = reachNow({
      veered: middle,
      depth,
      rollerHeight: boat.roller.height,
      massPerMetre: cable.massPerMetre,
      boat,
      windSpeed,
    });
    if (now && now.reach.value >= distance) high = middle;
    else low = middle;
  }
  return Math.round(high);
}
