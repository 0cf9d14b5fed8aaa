import { reachNow } from '../../cable/reach.ts';
import { localPlane } from '../../earth/local.ts';
import { radians, turn } from '../../quantities/angle.ts';
import type { Settings } from '../../settings.ts';
import type { VesselView } from '../../vessel/view.ts';
import { veered, type WatchState } from '../state.ts';
import type { Regard } from './filter.ts';
import { LEAST_WIND } from './model.ts';

/** One fix as the drag watch sees it. */
export interface Reading extends Regard {
  at: number;
  /** Roller's distance from the mark less the reach that the cable allows in this wind, metres. */
  excess: number;
  distance: number;
  reach: number;
  /** Speed over ground away from the mark by the receiver's own velocity, m/s. */
  outwards?: number;
}

/** Depth that is assumed where none was ever heard, metres; it matters little: the reach changes by h/R of it. */
const DEPTH_UNHEARD = 6;
/** Wind that is assumed while none is heard, m/s; the filter then holds the load for very uncertain. */
const WIND_UNHEARD = 6;
/** The load is varied by this (natural logarithm) to see how the reach depends on it. */
const LOAD_STEP = 0.3;

/** Undefined without mark, fresh roller position or a known length of cable. `wind` is the wind (m/s) that has acted lately. */
export function readingNow(
  state: WatchState,
  settings: Settings,
  vessel: VesselView,
  wind: number | undefined,
): Reading | undefined {
  const { mark } = state;
  const out = veered(state, settings);
  if (!mark || !vessel.roller || out === undefined) return undefined;
  const { east, north } = localPlane(mark).toLocal(vessel.roller.value);
  const distance = Math.hypot(east, north);
  const depth = vessel.depth && (vessel.depth.value.surface ?? vessel.depth.value.measured);
  const under = (load: number): number | undefined =>
    reachNow({
      veered: out,
      depth: depth ?? state.circle?.depth ?? DEPTH_UNHEARD,
      rollerHeight: settings.boat.roller.height,
      massPerMetre: settings.cable.massPerMetre,
      boat: settings.boat,
      windSpeed: Math.hypot(wind ?? WIND_UNHEARD, LEAST_WIND) * Math.sqrt(load),
      ...(vessel.stream ? { streamDrift: vessel.stream.value.drift } : {}),
    })?.reach.value;
  const reach = under(1);
  const more = under(Math.exp(LOAD_STEP));
  if (reach === undefined || more === undefined) return undefined;
  const gain = Math.max(0, (more - reach) / LOAD_STEP);
  const unit = distance > 0.5 ? { east: east / distance, north: north / distance } : { east: 0, north: 0 };
  const bearing = (Math.atan2(east, north) * 180) / Math.PI;
  const { sog, cog } = vessel;
  const outwards =
    sog && cog
      ? sog.value * Math.cos(radians(turn(bearing, cog.value)))
      : sog && sog.value < 0.1
        ? 0
        : undefined;
  return {
    at: vessel.roller.at,
    ...unit,
    gain,
    distance,
    reach,
    excess: distance - reach,
    ...(outwards === undefined ? {} : { outwards }),
  };
}
