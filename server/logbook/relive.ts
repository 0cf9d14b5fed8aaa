import { createEngine, type EngineState, step } from '../../shared/engine.ts';
import type { Event } from '../../shared/events.ts';
import type { Input } from '../../shared/input.ts';
import type { NightSummary } from '../../shared/logbook/night.ts';
import type { Settings } from '../../shared/settings.ts';
import { nightFolder } from './files.ts';
import { gently, type Recorded } from './recorded.ts';
import type { Store } from './store.ts';

/** What a night is lived again from: a state of the engine, and every input from there on. */
export interface Beginning {
  at: number;
  state: EngineState;
  /** The very state in which the mark was set; else one that warmed up on what was recorded before. */
  exact: boolean;
}

/** Sentences heard before the mark, when the state it was set in is lost: enough for every source and mean to be there, seconds. */
const WARM_UP = 1800;
/** Times are microseconds apart. */
export const JUST_BEFORE = 1e-6;

/** The folder with the journal of a night: that of the boat, or the one that an import brought along. */
export const journalOf = (data: string, { id, origin }: Pick<NightSummary, 'id' | 'origin'>): string =>
  origin === 'import' ? nightFolder(data, id) : data;

/**
 * The state just before the watch of a night began at `from`. `fallback`: settings when the journal does not tell any.
 */
export async function beginningOf(
  store: Store,
  recorded: Recorded,
  night: Pick<NightSummary, 'id' | 'origin' | 'from'>,
  fallback: Settings,
): Promise<Beginning> {
  const start = await store.start(night.id);
  if (start)
    return {
      at: start.at,
      state: { ...createEngine(fallback), ...(start.state as EngineState) },
      exact: true,
    };
  const journal = journalOf(store.data, night);
  let settings = fallback;
  for (const act of await recorded.acts(journal, night.from - 7 * 86_400))
    if (act.kind === 'settings' && act.at < night.from) settings = act.settings;
  let state = createEngine(settings);
  const from = night.from - WARM_UP;
  // An anchorage that was left within this time belongs to the night before.
  for await (const input of gently(recorded.inputs(journal, from, night.from - JUST_BEFORE)))
    if (input.kind !== 'command') state = step(state, input).state;
  return { at: night.from - JUST_BEFORE, state, exact: false };
}

/** Steps the engine through inputs and tells after each what came of it. An input that breaks the engine is left out, as at a restart. */
export async function relive(
  { state }: Beginning,
  inputs: AsyncIterable<Input>,
  heard: (engine: EngineState, input: Input, events: readonly Event[]) => boolean | undefined,
): Promise<void> {
  let engine = state;
  for await (const input of gently(inputs)) {
    let events: readonly Event[];
    try {
      const done = step(engine, input);
      engine = done.state;
      events = done.events;
    } catch {
      continue;
    }
    if (heard(engine, input, events)) return;
  }
}
