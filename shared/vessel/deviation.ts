import { direction } from '../quantities/angle.ts';

type Card = readonly (readonly [number, number])[];

/** The card is by magnetic heading, which is what is looked for: three rounds settle it, as deviation changes slowly with heading. */
const ROUNDS = 3;

/** Magnetic heading of a compass heading by a deviation card of [magnetic heading, deviation east positive], degrees. */
export function magneticOf(compass: number, card: Card): number {
  let magnetic = compass;
  for (let i = 0; i < ROUNDS; i++) magnetic = direction(compass + deviationAt(magnetic, card));
  return magnetic;
}

/** Deviation on a magnetic heading, linear between the card's entries round the compass; 0 by an empty card. */
export function deviationAt(magnetic: number, card: Card): number {
  let before = 360;
  let after = 360;
  let low = 0;
  let high = 0;
  for (const [heading, deviation] of card) {
    const back = direction(magnetic - heading);
    const ahead = direction(heading - magnetic);
    if (back < before) {
      before = back;
      low = deviation;
    }
    if (ahead < after) {
      after = ahead;
      high = deviation;
    }
  }
  return before === 0 || before + after >= 720 ? low : low + ((high - low) * before) / (before + after);
}
