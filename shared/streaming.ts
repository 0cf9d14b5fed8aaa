import { predictedHeading } from './cable/lie.ts';
import { destination } from './earth/geodesic.ts';
import type { EngineState } from './engine.ts';
import { reciprocal } from './quantities/angle.ts';
import type { Estimate } from './quantities/estimate.ts';
import type { Boat } from './settings.ts';
import { expectedStream, nextTurn } from './tidal-stream/tidal-stream.ts';
import type { StreamTurnView } from './tidal-stream/view.ts';
import { turnReport } from './tidal-stream/words.ts';
import type { VesselView } from './vessel/view.ts';
import type { WatchView } from './watch/view.ts';
import { pushNow } from './watch/watch.ts';

/** What ties the tidal stream to how she lies, which do not know each other. */

/** After this long the stream has found its strength again, s: a quarter of a tide's half. */
const SETTLED = 5400;

/** When the stream turns and what she does then; undefined without a mark: then nothing is measured and she goes nowhere. */
export function streamTurn(
  { tidalStream, settings }: EngineState,
  vessel: VesselView,
  watch: WatchView,
): StreamTurnView | undefined {
  if (!watch.mark) return undefined;
  const { samples } = tidalStream;
  const record = {
    samples: samples.length,
    span: samples.length < 2 ? 0 : samples.at(-1)!.at - samples[0]!.at,
  };
  const turn = nextTurn(tidalStream, vessel.at);
  if ('unknown' in turn) return { unknown: turn.unknown, record };
  const stream = expectedStream(tidalStream, turn.at.value + SETTLED);
  const lies = stream && liesIn(settings.boat, vessel, watch, stream);
  const view = { ...turn, ...(lies ? { lies } : {}), record };
  const report = turnReport(view, vessel.at);
  return { ...view, ...(report === undefined ? {} : { report }) };
}

function liesIn(
  boat: Boat,
  { windGround, depth }: VesselView,
  { mark, cable }: WatchView,
  { set, drift }: { set: number; drift: Estimate },
): StreamTurnView['lies'] {
  const wind = windGround?.value;
  if (!wind) return undefined;
  const stream = { set, drift: drift.value, driftSigma: drift.sigma };
  const found = predictedHeading(boat, { wind, stream }, depth?.value.surface);
  if (!found) return undefined;
  const roller = mark && cable && destination(mark, reciprocal(found.heading.value), cable.reach.value);
  return { heading: found.heading, drift: drift.value, ...(roller ? { roller } : {}) };
}

/** The stream as the watch knows it now; undefined: it does not. */
export function streamNow(
  state: EngineState,
  vessel: VesselView,
): { set: number; drift: number } | undefined {
  const stream = pushNow(state.watch, vessel)?.stream;
  return stream && { set: stream.set.value, drift: stream.drift.value };
}
