import type { PlanRequest } from '../../../shared/plan/request.ts';
import type { Cable } from '../../../shared/settings.ts';

/** What chain a plan is made for: the boat's own, one of the trade's sizes, or one by its mass. */

/** `boat`, `mass`, or a size in mm as text. */
export type ChainChoice = string;

/** The sizes of the planner's chain table, mm, thin to thick (held alike by a test): its masses are the boat's affair. */
export const SIZES: readonly { choice: ChainChoice; name: string }[] = [
  { choice: '6', name: '6 mm' },
  { choice: '6.35', name: '¼″' },
  { choice: '7', name: '7 mm' },
  { choice: '7.9375', name: '5⁄16″' },
  { choice: '8', name: '8 mm' },
  { choice: '9.525', name: '⅜″' },
  { choice: '10', name: '10 mm' },
  { choice: '12', name: '12 mm' },
  { choice: '12.7', name: '½″' },
  { choice: '13', name: '13 mm' },
  { choice: '14', name: '14 mm' },
];

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
