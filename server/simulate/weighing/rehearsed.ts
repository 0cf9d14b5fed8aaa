import type { Command } from '../../../shared/commands.ts';
import type { WeighView } from '../../../shared/weigh/view.ts';
import type { Scenario } from '../scenario.ts';
import type { Simulator } from '../simulator.ts';
import { createForedeck, createHelm } from './crew.ts';

export interface CrewPorts {
  /** What the helm page shows now. */
  view(): WeighView | undefined;
  order(command: Command, by: string): void;
}

/** Engine ticking over, gloves on: seconds between "start to weigh" and the first hand that moves. */
const READY = 10;
/** She moves off for so long before the mark is closed, s. */
const LEAVING = 60;

/**
 * The simulator with a scripted crew on board: after `scenario.weighs.after` seconds they start to weigh, the helm steers, the foredeck
 * heaves and signals as people would, and at last they close the mark. Without `weighs` it is the simulator as it is.
 */
export function crewed(simulator: Simulator, scenario: Scenario, { view, order }: CrewPorts): Simulator {
  const { weighs } = scenario;
  if (!weighs) return simulator;
  const helm = createHelm(weighs.helm, scenario, simulator);
  const foredeck = createForedeck(scenario, simulator);
  let seconds = 0;
  let away = 0;

  function second(): void {
    seconds++;
    if (seconds === weighs!.after) order({ do: 'weigh' }, 'simulated helm');
    if (seconds < weighs!.after + READY) return;
    const truth = simulator.truth();
    for (const signal of foredeck.act(truth)) order({ do: 'signal', signal }, 'simulated foredeck');
    helm.act({ truth, view: view(), foredeck: foredeck.sees });
    if (foredeck.sees.aweigh && ++away === LEAVING) order({ do: 'aweigh' }, 'simulated helm');
  }

  let part = 0;
  return {
    ...simulator,
    step(by = 0.1) {
      for (let left = Math.round(by * 10); left > 0; left--) {
        simulator.step(0.1);
        if (++part % 10 === 0) second();
      }
    },
  };
}
