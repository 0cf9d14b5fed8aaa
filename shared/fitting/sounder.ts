import type { Boat } from '../settings.ts';
import { serving } from '../vessel/channel.ts';
import type { VesselState } from '../vessel/state.ts';
import type { Fitted } from './view.ts';

/** Metres by which two figures may differ and still mean the same: instruments are set in tenths, or in half feet. */
const ALIKE = 0.1;

/**
 * What the sounder says of its own place: DPT's offset, metres, to the waterline when positive, to the keel when negative (see
 * `shared/vessel/depth.ts`); undefined: it sends none, or zero, which says nothing.
 */
export function sentOffset({ depth }: VesselState): number | undefined {
  const said = serving(depth)?.value;
  return said?.reference === 'transducer' && said.offset !== undefined && said.offset !== 0
    ? said.offset
    : undefined;
}

/** The transducer's depth below the waterline as told, beside the one that follows from the offset sent. */
export function fitSounder(sent: number | undefined, { draft, sounder }: Boat): Fitted {
  const told = sounder.belowWaterline;
  const base = told === undefined ? {} : { told };
  if (sent === undefined)
    return { ...base, unknown: 'The sounder sends no offset of its own to compare with.' };
  const value = sent > 0 ? sent : draft + sent;
  if (value < 0)
    return {
      ...base,
      unknown:
        'By its offset the transducer would be above the waterline: the offset, or the draft, is wrong.',
    };
  const differs = told === undefined || Math.abs(told - value) > ALIKE;
  return { ...base, estimate: { value, sigma: ALIKE / 2 }, ...(differs ? { offer: value } : {}) };
}
