import { anchorages } from '../../../server/simulate/anchorages.ts';
import type { Scenario } from '../../../server/simulate/scenario.ts';
import { createSimulator, type Simulator, type Truth } from '../../../server/simulate/simulator.ts';
import { distanceBearing } from '../../../shared/earth/geodesic.ts';
import { fromKnots } from '../../../shared/quantities/units.ts';

export function named(name: string): Scenario {
  const found = anchorages().find((scenario) => scenario.name === name);
  if (!found) throw new Error(`no anchorage ${name}`);
  return found;
}

export const NO_STREAM: Scenario['stream'] = {
  mean: 0,
  amplitude: 0,
  set: 0,
  across: 0,
  period: 44_700,
  slackAt: 0,
  eddies: 0,
};

/** Wind that neither gusts nor turns. */
export const steadyWind = (speed: number, from: number): Scenario['wind'] => ({
  knots: [{ at: 0, speed, from }],
  gusts: { intensity: 0, time: 20 },
  meander: { sigma: 0, time: 200 },
});

export const gustyWind = (speedKnots: number, from: number): Scenario['wind'] => ({
  knots: [{ at: 0, speed: fromKnots(speedKnots), from }],
  gusts: { intensity: 0.14, time: 20 },
  meander: { sigma: 7, time: 240 },
});

/** Flat bottom without tide, steady wind, no stream, no snubber, an anchor that never moves. */
export function still(more: Partial<Scenario> = {}): Scenario {
  const { snubber: _, ...scenario } = named('quiet-night');
  return {
    ...scenario,
    seabed: { depth: 7, slope: 0, deepens: 0, tide: { range: 0, period: 44_700, highAt: 0 } },
    wind: steadyWind(fromKnots(20), 270),
    stream: NO_STREAM,
    anchor: { breakOut: 1e9 },
    ...more,
  };
}

/** The truth once a second. */
export function watch(simulator: Simulator, seconds: number): Truth[] {
  const seen: Truth[] = [];
  for (let second = 0; second < seconds; second++) {
    simulator.step(1);
    simulator.sentences();
    seen.push(simulator.truth());
  }
  return seen;
}

/** The same from the start on, without instruments: they change nothing of it (see determinism.test.ts) and take time. */
export const watched = (scenario: Scenario, seconds: number, seed = 1): Truth[] =>
  watch(createSimulator({ ...scenario, instruments: { ...scenario.instruments, sends: [] } }, seed), seconds);

/** From the roller to the anchor, by Karney's geodesic: nothing of the simulator's own map. */
export const toAnchor = (truth: Truth) => distanceBearing(truth.roller, truth.anchor);

export const mean = (values: number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

export function quantile(values: number[], part: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))]!;
}
