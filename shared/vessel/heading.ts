import { direction } from '../quantities/angle.ts';
import type { Observation } from '../sentences/observation.ts';
import { type Channel, fresh } from './channel.ts';
import { magneticOf } from './deviation.ts';
import { LIMITS } from './limits.ts';
import type { Variation } from './variation.ts';
import type { VesselView } from './view.ts';

export type HeadingSaid = Extract<Observation, { kind: 'heading' | 'heading-magnetic' }>;

/** One-sigma errors by what the heading is made of, degrees (our choice): compass makers state 1–3°, small boats' steel adds to it. */
const SIGMA = { true: 1, 'magnetic-sensor': 3, 'magnetic-model': 4 } as const;

/**
 * True heading: as a true-heading sensor gives it, else magnetic heading + variation (easterly positive). A compass that does not
 * know its deviation is corrected by the deviation card. `from` tells whether the variation was a sensor's or the model's.
 */
export function trueHeading(
  channel: Channel<HeadingSaid>,
  variation: Variation | undefined,
  card: readonly (readonly [number, number])[],
  at: number,
): VesselView['heading'] {
  const source = fresh(channel, at, LIMITS.heading);
  if (!source) return undefined;
  const { value: said, key } = source;
  const known = { at: source.at, age: at - source.at, source: key };
  if (said.kind === 'heading') return { value: said.heading, ...known, sigma: SIGMA.true, from: 'true' };
  if (!variation) return undefined;
  const magnetic = said.deviationApplied ? said.heading : magneticOf(said.heading, card);
  const from = variation.from === 'sensor' ? 'magnetic-sensor' : 'magnetic-model';
  return { value: direction(magnetic + variation.value), ...known, sigma: SIGMA[from], from };
}
