import type { Scenario } from '../../../server/simulate/scenario.ts';
import { createSimulator, type Simulator } from '../../../server/simulate/simulator.ts';
import {
  type Collected,
  createFitting,
  observe,
  type Said,
  saidOf,
} from '../../../shared/fitting/fitting.ts';
import { decode } from '../../../shared/sentences/decode.ts';
import type { Settings } from '../../../shared/settings.ts';
import { createVessel, hear, pass, view } from '../../../shared/vessel/vessel.ts';

/** Settings of the scenario's boat with nothing else told. */
export const settingsOf = ({ boat }: Scenario, told: Partial<Settings['boat']> = {}): Settings => ({
  boat: { ...boat, ...told },
  cable: { massPerMetre: 2.3 },
  limits: {},
  circle: { margin: 6 },
  deviation: [],
  checksumOptional: [],
});

/** What is laid by while a boat with these settings hears the simulated instruments. */
export function collect(
  scenario: Scenario,
  seed: number,
  hours: number,
  settings: Settings,
  {
    steer,
    atAnchor = true,
  }: { steer?: (simulator: Simulator, second: number) => void; atAnchor?: boolean } = {},
): { collected: Collected; said: Said } {
  const simulator = createSimulator(scenario, seed);
  const vessel = createVessel();
  const collected = createFitting();
  const { lat, lon } = simulator.truth().anchor;
  const mark = atAnchor ? { lat, lon } : undefined;
  const { at: start } = scenario.start;
  for (let second = 1; second <= hours * 3600; second++) {
    steer?.(simulator, second);
    simulator.step(1);
    for (const { at, text } of simulator.sentences()) {
      const sentence = decode(text, { requireChecksum: true });
      if (sentence.ok) hear(vessel, settings, sentence, at, 'sim');
    }
    pass(vessel, settings, start + second);
    observe(collected, settings, view(vessel, settings, start + second), mark);
  }
  return { collected, said: saidOf(vessel) };
}
