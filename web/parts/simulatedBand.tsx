import { shown } from '../live.ts';
import { words } from '../words.ts';

/** On every page while nothing here is a real boat. */
export function SimulatedBand() {
  const name = shown.value?.simulated;
  return name === undefined ? null : <p class="simulated">{words.simulated(name)}</p>;
}
