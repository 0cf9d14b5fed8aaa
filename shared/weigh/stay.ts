import type { Estimate } from '../quantities/estimate.ts';
import { chance } from './lasting.ts';
import { STAY } from './limits.ts';
import type { WeighState } from './state.ts';
import type { Stay, WeighView } from './view.ts';

/**
 * The stay as it looks at this moment, from cable out over the height of the roller; `was` gives the hysteresis. When nobody tells the
 * cable it is what a cable without slack would have, and says so. Undefined when neither can be known.
 */
export function stayOf(
  state: WeighState,
  distance: Estimate | undefined,
  height: Estimate | undefined,
  out: WeighView['out'],
): WeighView['stay'] {
  if (state.brokenOut)
    return {
      name: 'aweigh',
      certainty: state.brokenOut.from === 'foredeck' ? 0.99 : 0.9,
      from: state.brokenOut.from,
    };
  if (!height) return undefined;
  const byDistance = out === undefined || out.from === 'bounds';
  const length = byDistance
    ? distance && { value: Math.hypot(distance.value, height.value), sigma: distance.sigma + 1 }
    : out;
  if (!length) return undefined;
  const ratio = length.value / height.value;
  const sigma = Math.hypot(length.sigma, ratio * height.sigma) / height.value;
  const was = state.stay?.name;
  const low = was === 'up-and-down' ? STAY.upAndDown.out : STAY.upAndDown.in;
  const high = was === 'short' || was === 'up-and-down' ? STAY.short.out : STAY.short.in;
  const name: Stay = ratio <= low ? 'up-and-down' : ratio <= high ? 'short' : 'long';
  const belowLow = chance((low - ratio) / sigma);
  const belowHigh = chance((high - ratio) / sigma);
  const certainty =
    name === 'up-and-down' ? belowLow : name === 'short' ? belowHigh - belowLow : 1 - belowHigh;
  return {
    name,
    certainty,
    from: byDistance ? 'distance' : out?.from === 'foredeck' ? 'foredeck' : 'cable',
  };
}
