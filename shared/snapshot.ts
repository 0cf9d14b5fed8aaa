import { list } from './alerts/alerts.ts';
import { checkNow } from './departing.ts';
import type { EngineState } from './engine.ts';
import { lee } from './leeing.ts';
import type { State } from './state.ts';
import { streamTurn } from './streaming.ts';
import { tideView } from './tides/tides.ts';
import { view } from './vessel/vessel.ts';
import { report, watchView } from './watch/watch.ts';
import { weighView } from './weigh/weigh.ts';
import { given, leftView } from './weighing.ts';

/** What a page may see of the engine at `at`; the daemon adds what only it knows: open pages and whether all this is simulated. */
export function snapshot(engine: EngineState, at: number): Omit<State, 'pages' | 'simulated'> {
  const vessel = view(engine.vessel, engine.settings, at);
  const watch = watchView(engine.watch, engine.settings, vessel);
  const turn = streamTurn(engine, vessel, watch);
  const leeward = lee(engine, vessel, watch);
  const tide = tideView(engine.tides, vessel, engine.settings.boat.draft);
  const check = checkNow(engine, vessel, watch);
  const left = leftView(engine);
  const alerts = list(engine.alerts);
  return {
    at,
    report: report(watch, vessel, alerts),
    boat: engine.settings.boat,
    cable: engine.settings.cable,
    vessel,
    watch,
    ...(engine.weigh
      ? { weigh: weighView(engine.weigh, engine.settings, vessel, given(engine, vessel)) }
      : {}),
    ...(check ? { check } : {}),
    ...(left ? { left } : {}),
    neighbours: engine.neighbours.views,
    ...(tide ? { tide } : {}),
    ...(leeward ? { lee: leeward } : {}),
    ...(turn ? { streamTurn: turn } : {}),
    ...(engine.soundings.view ? { soundings: engine.soundings.view } : {}),
    alerts,
    inputs: engine.inputs,
    notes: engine.notes,
  };
}
