import type { Finding } from './alerts/alert.ts';
import type { EngineState } from './engine.ts';
import type { Entered, Ground } from './soundings/soundings.ts';
import { findLowWater, leastAhead, tideAt } from './tides/tides.ts';
import type { VesselView } from './vessel/view.ts';

/** What ties tide, soundings and watch, which do not know each other. */

/** Low water is looked out for while a mark is set, by the limit as told, where she lies and over her circle. */
export function lowWaterFinding(state: EngineState, vessel: VesselView): Finding | undefined {
  const { watch, settings, tides, soundings } = state;
  const told = watch.told.limits.underKeelBelow;
  if (watch.since === undefined || told === null) return undefined;
  const least = soundings.view?.least;
  const circle = least && {
    at: least.at,
    underKeel: least.underKeel,
    sigma: least.depth.sigma,
    sounded: least.sounded,
  };
  return findLowWater(tides, vessel, settings.boat.draft, told ?? settings.limits.underKeelBelow, circle);
}

/** What soundings are entered by, at every fix. */
export function placeOfGround({ watch, tides }: EngineState, at: number): Entered {
  const height = tideAt(tides, at);
  return { ...(watch.mark ? { anchor: watch.mark } : {}), ...(height === undefined ? {} : { height }) };
}

/** What the soundings are judged by. The circle is the watch's without its margin, for the roller; her stern swings a length farther. */
export function groundOf(state: EngineState, at: number): Ground {
  const { watch, settings, tides } = state;
  const { mark, circle } = watch;
  const height = tideAt(tides, at);
  const low = leastAhead(tides, at);
  return {
    ...(mark ? { anchor: { lat: mark.lat, lon: mark.lon } } : {}),
    ...(circle
      ? { radius: circle.radius - (circle.computed ? settings.circle.margin : 0) + settings.boat.length }
      : {}),
    ...(height === undefined ? {} : { height }),
    ...(low ? { low } : {}),
  };
}
