import { reachNow } from '../../cable/reach.ts';
import { localPlane } from '../../earth/local.ts';
import { hypot } from '../../quantities/vector.ts';
import type { Settings } from '../../settings.ts';
import type { VesselView } from '../../vessel/view.ts';
import { veered, type WatchState } from '../state.ts';
import type { Regard } from './filter.ts';
import { BLOCK, DEPTH_UNHEARD, LEAST_WIND, WIND_UNHEARD } from './model.ts';
import type { DragState } from './state.ts';

/** One fix as the drag watch sees it. */
export interface Reading extends Regard {
  at: number;
  /** Roller's distance from the mark less the reach that the cable allows in this wind, metres. */
  excess: number;
  distance: number;
  reach: number;
  /** How much farther the taut cable reaches, metres. */
  left: number;
}

/** What the cable allows at this moment; kept for some seconds, since wind and tide change slower than that. */
export interface Allowed {
  at: number;
  veered: number;
  reach: number;
  left: number;
  /** d reach / d ln load, metres. */
  gain: number;
}

/** The load is varied by this (natural logarithm) to see how the reach depends on it. */
const LOAD_STEP = 0.3;
const KEPT = 4;

/** Undefined without mark, fresh roller position or a known length of cable. */
export function readingNow(
  state: WatchState,
  drag: DragState,
  settings: Settings,
  vessel: VesselView,
): Reading | undefined {
  const { mark } = state;
  const out = veered(state, settings) ?? drag.supposed?.veered;
  if (!mark || !vessel.roller || out === undefined) return undefined;
  const now = drag.allowed;
  if (!now || now.veered !== out || vessel.at - now.at >= KEPT || vessel.at < now.at) {
    const anew = allowedNow(state, drag, settings, vessel, out);
    if (!anew) return undefined;
    drag.allowed = anew;
  }
  const { reach, left, gain } = drag.allowed!;
  const { east, north } = localPlane(mark).toLocal(vessel.roller.value);
  const distance = hypot(east, north);
  // Without a heading the roller is given as the antenna, which lies on the far side of it.
  const { aftOfRoller, toStarboard } = settings.boat.antenna;
  const farSide = vessel.heading ? 0 : hypot(aftOfRoller, toStarboard);
  const unit = distance > 0.5 ? { east: east / distance, north: north / distance } : { east: 0, north: 0 };
  return {
    at: vessel.roller.at,
    ...unit,
    gain,
    distance,
    reach,
    left,
    excess: distance - farSide - reach,
  };
}

function allowedNow(
  state: WatchState,
  { wind }: DragState,
  settings: Settings,
  vessel: VesselView,
  out: number,
): Allowed | undefined {
  const depth = vessel.depth && (vessel.depth.value.surface ?? vessel.depth.value.measured);
  const under = (load: number) =>
    reachNow({
      veered: out,
      depth: depth ?? state.circle?.depth ?? DEPTH_UNHEARD,
      rollerHeight: settings.boat.roller.height,
      massPerMetre: settings.cable.massPerMetre,
      boat: settings.boat,
      windSpeed: hypot(wind?.speed ?? WIND_UNHEARD, LEAST_WIND) * Math.sqrt(load),
      ...(vessel.stream ? { streamDrift: vessel.stream.value.drift } : {}),
    });
  const now = under(1);
  const more = under(Math.exp(LOAD_STEP));
  if (!now || !more) return undefined;
  const reach = now.reach.value;
  return {
    at: vessel.at,
    veered: out,
    reach,
    left: Math.max(0, now.taut - reach),
    // What the load's error may do ends at the taut cable, and chain that straightens adds to it.
    gain: Math.max(0, (more.reach.value - reach) / LOAD_STEP, 2 * BLOCK.slack * (now.taut - reach)),
  };
}
