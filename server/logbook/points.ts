import type { EngineState } from '../../shared/engine.ts';
import { step } from '../../shared/engine.ts';
import type { LieEvent } from '../../shared/events.ts';
import type { Input } from '../../shared/input.ts';
import type { NightSummary, Sample } from '../../shared/logbook/night.ts';
import type { LatLon } from '../../shared/quantities/estimate.ts';
import type { Settings } from '../../shared/settings.ts';
import { view } from '../../shared/vessel/vessel.ts';
import { lieEvent } from '../../shared/watch/watch.ts';
import { gently, type Recorded } from './recorded.ts';
import { beginningOf, journalOf } from './relive.ts';
import type { Store } from './store.ts';

/** Where the roller was at one fix, and how she lay. */
export interface TrackFix extends LatLon, Omit<LieEvent, 'event' | 't'> {
  at: number;
  doubtful: boolean;
}

/** Every fix of a night, as the engine sees them when it lives the night again. */
export async function* fixesOf(
  store: Store,
  recorded: Recorded,
  night: NightSummary,
  fallback: Settings,
): AsyncGenerator<TrackFix> {
  const beginning = await beginningOf(store, recorded, night, fallback);
  let engine = beginning.state;
  let last = engine.vessel ? rollerAt(engine, beginning.at) : undefined;
  for await (const input of gently(
    recorded.inputs(journalOf(store.data, night), beginning.at, night.to ?? night.upTo),
  )) {
    engine = take(engine, input);
    if (input.kind !== 'line' || engine.watch.phase === 'no-mark') continue;
    const vessel = view(engine.vessel, engine.settings, input.at);
    const { roller } = vessel;
    if (!roller || roller.at === last) continue;
    last = roller.at;
    const { event: _, t: __, ...lie } = lieEvent(engine.watch, engine.settings, vessel, input.at);
    yield { at: roller.at, ...roller.value, ...lie, doubtful: vessel.positionDoubt !== undefined };
  }
}

const rollerAt = (engine: EngineState, at: number) => view(engine.vessel, engine.settings, at).roller?.at;

/** As at a restart: an input that breaks the engine is left out. */
function take(engine: EngineState, input: Input): EngineState {
  try {
    return step(engine, input).state;
  } catch {
    return engine;
  }
}

/** The coarser track of the samples, for nights whose sentences are not kept any more. */
export function* fixesOfStrips(strips: readonly Sample[]): Generator<TrackFix> {
  for (const { at, lat, lon, windSpeed, windFrom, drift, set, doubtful, ...sample } of strips) {
    if (lat === undefined || lon === undefined) continue;
    const { distance, bearing, heading, depth, moved, sigma, probability } = sample;
    yield {
      at,
      lat,
      lon,
      ...(distance === undefined ? {} : { distance }),
      ...(bearing === undefined ? {} : { bearing }),
      ...(heading === undefined ? {} : { heading }),
      ...(depth === undefined ? {} : { depth }),
      ...(windSpeed === undefined || windFrom === undefined
        ? {}
        : { wind: { speed: windSpeed, from: windFrom } }),
      ...(drift === undefined || set === undefined ? {} : { stream: { drift, set } }),
      ...(moved === undefined || sigma === undefined || probability === undefined
        ? {}
        : { anchor: { moved, sigma, probability } }),
      doubtful: doubtful === true,
    };
  }
}
