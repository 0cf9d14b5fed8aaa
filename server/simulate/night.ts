import type { Scenario } from './scenario.ts';
import { createSimulator, type Said, type Truth } from './simulator.ts';

export type NightItem = { kind: 'said'; said: Said } | { kind: 'truth'; truth: Truth };

/**
 * A whole night as fast as the computer can: sentences and, every `truthEvery` seconds, what was really the case, in order of
 * time. A sentence may bear a time up to a tenth of a second after the truth that follows it.
 */
export function* simulateNight(
  scenario: Scenario,
  seed: number,
  hours: number,
  truthEvery = 1,
): Generator<NightItem> {
  const simulator = createSimulator(scenario, seed);
  const samples = Math.floor((hours * 3600) / truthEvery);
  yield { kind: 'truth', truth: simulator.truth() };
  for (let sample = 0; sample < samples; sample++) {
    simulator.step(truthEvery);
    for (const said of simulator.sentences()) yield { kind: 'said', said };
    yield { kind: 'truth', truth: simulator.truth() };
  }
}
