import { CHAINS, chainOfSize } from '../../../shared/cable/chain.ts';
import type { PlanRequest } from '../../../shared/plan/request.ts';
import type { Cable } from '../../../shared/settings.ts';

/** What chain a plan is made for: the boat's own, one of the trade's sizes, or one by its mass. */

/** `boat`, `mass`, or a size in mm as text. */
export type ChainChoice = string;

const INCHES: Record<string, string> = { '6.35': '¼″', '7.9375': '5⁄16″', '9.525': '⅜″', '12.7': '½″' };

/** The sizes of the chain table, each once, thin to thick. */
export const SIZES: readonly { choice: ChainChoice; name: string; massPerMetre: number }[] = [
  ...new Set(CHAINS.map(({ size }) => size)),
]
  .sort((a, b) => a - b)
  .flatMap((size) => {
    const chain = chainOfSize(size);
    if (!chain) return [];
    const name = INCHES[String(size)] ?? `${size} mm`;
    return [{ choice: String(size), name, massPerMetre: chain.massPerMetre }];
  });

/** The chain of the request; undefined: by mass, and none is written. */
export function chainOf(
  choice: ChainChoice,
  cable: Cable,
  massPerMetre: number | undefined,
): PlanRequest['chain'] | undefined {
  if (choice === 'mass') return massPerMetre === undefined ? undefined : { massPerMetre };
  if (choice !== 'boat') return { size: Number(choice) };
  const { workingLoad } = cable;
  return { massPerMetre: cable.massPerMetre, ...(workingLoad !== undefined && { workingLoad }) };
}
