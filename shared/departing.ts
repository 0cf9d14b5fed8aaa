import type { Command } from './commands.ts';
import { distanceBearing } from './earth/geodesic.ts';
import type { EngineState } from './engine.ts';
import type { Answer } from './events.ts';
import type { NeighbourView } from './neighbours/view.ts';
import { nextTurn } from './tidal-stream/tidal-stream.ts';
import type { VesselView } from './vessel/view.ts';
import type { WatchView } from './watch/view.ts';
import { watchView } from './watch/watch.ts';
import { checkView, departureCheck, setItems } from './weigh/check.ts';
import type { CheckItem, CheckView } from './weigh/check-view.ts';
import { conditions, type Near } from './weigh/conditions.ts';

/** What ties the departure check to watch and neighbours, which it does not know. */

/** What hawse can measure of a departure now. */
function measure(state: EngineState, vessel: VesselView, watch: WatchView): CheckItem[] {
  const { lie, distance, anchor, limits } = watch;
  const turn = nextTurn(state.tidalStream, vessel.at);
  return conditions({
    vessel,
    track: state.watch.track,
    ...(lie?.stream ? { stream: lie.stream } : {}),
    ...(lie?.streamUnknown === undefined ? {} : { streamUnknown: lie.streamUnknown }),
    ...(lie?.to ? { lieTo: lie.to } : {}),
    ...(lie?.divergence === undefined ? {} : { divergence: lie.divergence }),
    ...('unknown' in turn ? {} : { slack: turn.at }),
    ...(distance ? { distance } : {}),
    ...(anchor ? { anchor } : {}),
    limits,
    neighbours: state.neighbours.views.map((one) => nearOf(one, watch)),
  });
}

function nearOf(
  { name, id, place, distance, dragging, overOurAnchor }: NeighbourView,
  watch: WatchView,
): Near {
  const { mark, circle } = watch;
  return {
    name: name ?? id,
    ...(distance === undefined ? {} : { distance }),
    ...(mark && circle && distanceBearing(mark, place).distance < circle.radius ? { inCircle: true } : {}),
    ...(overOurAnchor ? { overOurAnchor } : {}),
    ...(dragging ? { dragging: true } : {}),
  };
}

/** The check as pages show it; undefined without a mark: then there is nothing to leave. */
export function checkNow(state: EngineState, vessel: VesselView, watch: WatchView): CheckView | undefined {
  if (watch.phase === 'no-mark') return undefined;
  return checkView(state.check, measure(state, vessel, watch), state.watch.since);
}

type CheckCommand = Extract<Command, { do: 'departure-check' | 'departure-items' }>;

/** Obeys; `words` are for the journal. A refused order changes nothing. */
export function orderCheck(
  state: EngineState,
  vessel: VesselView,
  command: CheckCommand,
  at: number,
  by: string,
): { answer: Answer; words?: string } {
  const check = state.check ?? {};
  const done =
    command.do === 'departure-items'
      ? setItems(check, command.items, by)
      : departureCheck(
          check,
          measure(state, vessel, watchView(state.watch, state.settings, vessel)),
          command.ticked,
          at,
          by,
        );
  if (done.answer.ok) state.check = check;
  return done;
}
