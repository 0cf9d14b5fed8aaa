import { lengthUnit, speedUnit } from './prefs.ts';
import { inUnits } from './units.ts';
import { tied } from './words.ts';

/** A sentence of the boat as this screen shows it: in its own units, each figure on one line with its unit. */
export const told = (text: string): string =>
  tied(inUnits(text, { length: lengthUnit.value, speed: speedUnit.value }));
