import type { EngineState } from './engine.ts';
import type { Own } from './neighbours/neighbours.ts';
import type { VesselView } from './vessel/view.ts';
import { reachView } from './watch/watch.ts';

/** What ties the watch to the neighbours, which do not know each other: our own boat as they are judged against. */
export function ownBoat(state: EngineState, vessel: VesselView): Own {
  const { boat } = state.settings;
  const { mark, phase } = state.watch;
  const heading = vessel.heading?.value;
  const { bearing, cable } = reachView(state.watch, state.settings, vessel);
  const lie = bearing ?? heading ?? vessel.windGround?.value.from;
  const depth = vessel.depth?.value.surface ?? vessel.depth?.value.measured;
  return {
    at: vessel.at,
    length: boat.length,
    beam: boat.beam,
    ...(vessel.roller ? { roller: vessel.roller.value } : {}),
    ...(heading === undefined ? {} : { heading }),
    ...(mark ? { anchor: { lat: mark.lat, lon: mark.lon }, anchorSigma: mark.sigma } : {}),
    ...(cable ? { reach: cable.reach.value } : {}),
    ...(depth === undefined ? {} : { depth }),
    ...(lie === undefined ? {} : { lie }),
    ...(vessel.windGround ? { windSpeed: vessel.windGround.value.speed } : {}),
    ...(phase === 'weighing' ? { weighing: true } : {}),
  };
}
