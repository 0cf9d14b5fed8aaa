import { createEngine, step } from '../shared/engine.ts';
import { view } from '../shared/vessel/vessel.ts';
import type { Config } from './config/schema.ts';
import { type NamedInstrument, toSettings } from './config/settings.ts';
import { startIntakes } from './intake/manage.ts';
import { duties } from './listen/duties.ts';
import { inputReport } from './listen/report.ts';
import { createTally } from './listen/tally.ts';
import { createTimeline } from './timeline.ts';

/** What listens for `hawse listen` and `hawse check`. */
export type Ears = ReturnType<typeof listen>;

/** Everything that comes goes through the engine of the watch, so that it is judged here as it is judged there. */
export function listen(sources: NamedInstrument[], config: Config) {
  const settings = toSettings({ ...config, instruments: sources });
  const timeline = createTimeline(Date.now() / 1000);
  const began = timeline.now();
  const engine = createEngine(settings);
  const tally = createTally();
  const rates = new Map<string, number>();
  const optional = new Set(settings.checksumOptional);
  const intakes = startIntakes(sources, {
    line(id, text) {
      const at = timeline.now();
      step(engine, { kind: 'line', at, source: id, text });
      tally.line(id, text, at, !optional.has(id));
    },
    link(id, up, detail) {
      step(engine, { kind: 'link', at: timeline.now(), source: id, up, detail });
    },
    rate: (id, baud) => void rates.set(id, baud),
  });
  return {
    sources,
    seconds: () => timeline.now() - began,
    heard(at = timeline.now()) {
      step(engine, { kind: 'tick', at });
      const seconds = at - began;
      const vessel = view(engine.vessel, settings, at);
      return {
        seconds,
        inputs: sources.map((source) =>
          inputReport(
            source,
            engine.inputs.find(({ id }) => id === source.id),
            rates.get(source.id),
            seconds,
          ),
        ),
        sentences: tally.sentences(at),
        duties: duties({ view: vessel, said: tally.said() }),
      };
    },
    /** UTC by the receiver minus this computer's clock, seconds; undefined while no receiver tells the time. */
    clockOffset: (): number | undefined => view(engine.vessel, settings, timeline.now()).clockOffset,
    stop: async () => void (await Promise.all(intakes.map((intake) => intake.stop()))),
  };
}
