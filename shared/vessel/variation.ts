import { variation as modelVariation } from '../earth/variation.ts';
import { signed } from '../quantities/angle.ts';
import type { LatLon } from '../quantities/estimate.ts';
import { type Channel, createChannel, fresh, nameOf, serving } from './channel.ts';
import { VARIATION_LIMIT } from './limits.ts';

/** Magnetic variation as sentences state it, and as the model gives it for this place and year. */
export interface VariationState {
  channel: Channel<number>;
  /** `value` is absent where and when the model is not valid. */
  model?: { lat: number; lon: number; at: number; value?: number; sigma?: number };
  /** The stated value that a note has called wrong. */
  distrusted?: number | undefined;
}

export interface Variation {
  value: number;
  from: 'sensor' | 'model';
}

/** The model is asked again after so many degrees of latitude or longitude, or seconds: it is too dear to be asked at every fix. */
const MODEL_REACH = 0.1;
const MODEL_LIFE = 30 * 86_400;
/**
 * A stated variation is believed within so many degrees of the model, beside three of its sigmas (our choice): instruments carry
 * old tables and round to a degree, but many receivers state 0.0 for "unknown".
 */
const TOLERATED = 3;

export const createVariation = (): VariationState => ({ channel: createChannel() });

/** Keeps the model's value for the place of a fix; `utc` as well as it is known. */
export function keepModel(state: VariationState, { lat, lon }: LatLon, utc: number): void {
  const { model } = state;
  const isNear =
    model &&
    Math.abs(lat - model.lat) < MODEL_REACH &&
    Math.abs(lon - model.lon) < MODEL_REACH &&
    Math.abs(utc - model.at) < MODEL_LIFE;
  if (isNear) return;
  state.model = { lat, lon, at: utc, ...modelVariation(lat, lon, utc) };
}

/** Variation, degrees east positive: as stated by a sensor unless that is stale or clearly wrong, else by WMM2025. */
export function variationAt(state: VariationState, at: number): Variation | undefined {
  const stated = fresh(state.channel, at, VARIATION_LIMIT);
  if (stated && !isWrong(state, stated.value)) return { value: stated.value, from: 'sensor' };
  const value = state.model?.value;
  return value === undefined ? undefined : { value, from: 'model' };
}

function isWrong({ model }: VariationState, stated: number): boolean {
  return (
    model?.value !== undefined && Math.abs(signed(stated - model.value)) > TOLERATED + 3 * (model.sigma ?? 0)
  );
}

/** A note when a stated variation is not used because the model contradicts it; once for each value. */
export function noteWrong(state: VariationState): string | undefined {
  const stated = serving(state.channel);
  if (!stated || !isWrong(state, stated.value) || state.distrusted === stated.value) return undefined;
  state.distrusted = stated.value;
  const model = state.model?.value?.toFixed(1);
  return `variation by WMM2025 (${model}°); ${nameOf(stated)} states ${stated.value}°, which can't be here`;
}
