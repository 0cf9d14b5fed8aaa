import type { Command } from '../commands.ts';
import { destination } from '../earth/geodesic.ts';
import type { Problem } from '../events.ts';
import { radians } from '../quantities/angle.ts';
import type { LatLon } from '../quantities/estimate.ts';
import type { Settings } from '../settings.ts';
import type { VesselView } from '../vessel/view.ts';
import { fromTrack } from './from-track.ts';
import { MARK } from './limits.ts';
import type { Mark, TrackPoint } from './view.ts';

export type How = Exclude<Extract<Command, { do: 'mark' }>['how'], { setBack: true }>;
export type Placed =
  | (LatLon & { ok: true; sigma: number; how: Mark['how'] })
  | { ok: false; problem: Problem; why: string };

/** What the mark is found from when nobody has told it: the roller's track and the cable. */
export interface Swept {
  track: readonly TrackPoint[];
  veered: number | undefined;
  settings: Settings;
}

/** Where the anchor lies, from what a person has told; sigmas per axis in metres, see `MARK` in limits.ts. */
export function place(how: How, vessel: VesselView, swept: Swept): Placed {
  if ('here' in how) return here(vessel);
  if ('fromTrack' in how) return fromTrack(swept.track, swept.veered, swept.settings);
  if ('bearing' in how) return fromBearing(how.bearing, how.distance, vessel);
  const { lat, lon, sigma = MARK.toldSigma } = how;
  if (!(Math.abs(lat) <= 90 && Math.abs(lon) <= 180))
    return refused('A mark needs a latitude from -90 to 90 and a longitude from -180 to 180 degrees.');
  if (!(sigma > 0 && sigma <= MARK.longest))
    return refused(`The uncertainty of a mark is more than 0 and at most ${MARK.longest} m.`);
  return { ok: true, lat, lon, sigma, how: how.from ?? 'position' };
}

const refused = (why: string): Placed => ({ ok: false, problem: 'refused', why });

const noPosition = (vessel: VesselView): Placed => ({
  ok: false,
  problem: 'unavailable',
  why:
    vessel.ages.position === undefined
      ? 'There is no position yet, so hawse cannot tell where the bow is. Tell the mark by latitude and longitude.'
      : 'The last position is too old to tell where the bow is. Tell the mark by latitude and longitude.',
});

/** The roller is over the anchor now. A doubtful position is taken, with a sigma that says so: a wide mark is better than none. */
function here(vessel: VesselView): Placed {
  const roller = rollerNow(vessel);
  return roller ? { ok: true, ...roller, how: 'here' } : noPosition(vessel);
}

/** The anchor bears `bearing` (degrees true) at `distance` metres from the roller now. */
function fromBearing(bearing: number, distance: number, vessel: VesselView): Placed {
  if (!(bearing >= 0 && bearing <= 360)) return refused('A bearing is from 0 to 360 degrees true.');
  if (!(distance >= 0 && distance <= MARK.longest))
    return refused(`The distance to the anchor is from 0 to ${MARK.longest} m.`);
  const roller = rollerNow(vessel);
  if (!roller) return noPosition(vessel);
  const { lat, lon } = destination(roller, bearing, distance);
  const across = distance * radians(MARK.bearingSigma);
  const along = distance * MARK.distanceSigmaPart;
  const sigma = Math.hypot(roller.sigma, across / Math.SQRT2, along / Math.SQRT2);
  return { ok: true, lat, lon, sigma, how: 'bearing-and-distance' };
}

function rollerNow({ roller, positionDoubt }: VesselView): (LatLon & { sigma: number }) | undefined {
  if (!roller) return undefined;
  const { lat, lon } = roller.value;
  const sigma = positionDoubt
    ? Math.max(roller.sigma * MARK.doubtfulFactor, MARK.doubtfulSigma)
    : roller.sigma;
  return { lat, lon, sigma };
}
