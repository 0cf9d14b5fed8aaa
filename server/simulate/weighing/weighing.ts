import { createEngine, type EngineState, step } from '../../../shared/engine.ts';
import type { Event } from '../../../shared/events.ts';
import type { Settings } from '../../../shared/settings.ts';
import { snapshot } from '../../../shared/snapshot.ts';
import type { WeighView } from '../../../shared/weigh/view.ts';
import type { Scenario } from '../scenario.ts';
import { createSimulator, type Truth } from '../simulator.ts';
import { createForedeck, createHelm, type HelmKind } from './crew.ts';

export interface Weighed {
  helm: HelmKind;
  /** Does the foredeck tell hawse anything? It shows the helm by its arms in any case. */
  entries: boolean;
  /** Error of the mark, metres north and east of the anchor, and the sigma that was told with it. */
  mark?: { north: number; east: number; sigma: number };
  /** Seconds that she lies before weighing begins, and that it may take. */
  before?: number;
  most?: number;
}

export interface Moment {
  truth: Truth;
  view: WeighView | undefined;
  events: Event[];
}

const MARK = { north: 0, east: 0, sigma: 2 };
const METRES = 111_200;

/** A whole weighing, simulated: boat, crew and hawse's own engine, a moment a second from "start to weigh" until well after aweigh. */
export function* weighSimulated(
  scenario: Scenario,
  settings: Settings,
  seed: number,
  { helm: kind, entries, mark = MARK, before = 240, most = 900 }: Weighed,
): Generator<Moment> {
  const simulator = createSimulator(scenario, seed);
  const helm = createHelm(kind, scenario, simulator);
  const foredeck = createForedeck(scenario, simulator);
  let engine: EngineState = createEngine(settings);
  let events: Event[] = [];
  const take = (input: Parameters<typeof step>[1]) => {
    const done = step(engine, input);
    engine = done.state;
    for (const event of done.events) events.push(event);
  };
  const second = () => {
    simulator.step(1);
    for (const { at, text } of simulator.sentences()) take({ kind: 'line', at, source: 'sim', text });
  };
  const order = (command: Extract<Parameters<typeof step>[1], { kind: 'command' }>['command'], by: string) =>
    take({ kind: 'command', at: Math.max(engine.now ?? 0, simulator.truth().at), by, command });

  second();
  const { anchor } = simulator.truth();
  const lat = anchor.lat + mark.north / METRES;
  const lon = anchor.lon + mark.east / (METRES * Math.cos((anchor.lat * Math.PI) / 180));
  order({ do: 'mark', how: { lat, lon, sigma: mark.sigma } }, 'crew');
  for (let t = 0; t < before; t++) second();
  order({ do: 'weigh' }, 'helm');
  let after = 0;
  for (let t = 0; t < most && after < 60; t++) {
    events = [];
    second();
    const truth = simulator.truth();
    const view = snapshot(engine, Math.max(truth.at, engine.now!)).weigh;
    // Ten seconds to get ready: gloves on, engine ticking over.
    if (t >= 10) {
      for (const signal of foredeck.act(truth)) if (entries) order({ do: 'signal', signal }, 'foredeck');
      helm.act({ truth, view, foredeck: foredeck.sees });
    }
    if (truth.hold === 'aweigh') after++;
    yield { truth, view, events };
  }
}
