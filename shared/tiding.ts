import type { Finding } from './alerts/alert.ts';
import type { EngineState } from './engine.ts';
import { findLowWater } from './tides/tides.ts';
import type { VesselView } from './vessel/view.ts';

/** What ties the tide to the watch: low water is looked out for while a mark is set, by the limit as told. */
export function lowWaterFinding(state: EngineState, vessel: VesselView): Finding | undefined {
  const { watch, settings, tides } = state;
  const told = watch.told.limits.underKeelBelow;
  if (watch.since === undefined || told === null) return undefined;
  return findLowWater(tides, vessel, settings.boat.draft, told ?? settings.limits.underKeelBelow);
}
