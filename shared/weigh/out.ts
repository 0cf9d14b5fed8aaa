import type { Estimate } from '../quantities/estimate.ts';
import type { Sentence } from '../sentences/decoded.ts';
import type { Settings } from '../settings.ts';
import { OUT } from './limits.ts';
import type { Given, WeighState } from './state.ts';
import type { WeighView } from './view.ts';

/** Takes a chain counter's reading: XDR of the name that hawse.yaml gives, a length in metres. */
export function hearCounter(state: WeighState, settings: Settings, sentence: Sentence, at: number): void {
  const name = settings.cable.counter;
  if (name === undefined || sentence.id !== 'XDR') return;
  for (const said of sentence.observations) {
    if (said.kind !== 'transducer' || said.name !== name || said.type !== 'D' || said.unit !== 'M') continue;
    if (said.value === undefined || said.value < 0 || said.value >= 1000) continue;
    if (state.counter && said.value < state.counter.metres - OUT.counts) state.counterFell = at;
    state.counter = { metres: said.value, at };
  }
}

/** The windlass heaves: by the foredeck's word, or since the counter runs down. */
export const isHeaving = (state: WeighState, at: number): boolean =>
  state.heavingSince !== undefined ||
  (state.counterFell !== undefined && at - state.counterFell <= OUT.counterHeaves);

const rateOf = (state: WeighState, settings: Settings): Estimate => {
  const told = settings.weigh?.windlassRate;
  const part = state.rate !== undefined || told !== undefined ? OUT.learntSigmaPart : OUT.rateSigmaPart;
  const value = state.rate ?? told ?? OUT.rate;
  return { value, sigma: part * value };
};

const heavedFor = (state: WeighState, at: number): number =>
  (state.told?.heaved ?? 0) + (state.heavingSince === undefined ? 0 : at - state.heavingSince);

/** The windlass begins to heave. */
export function startHeaving(state: WeighState, veered: number | undefined, at: number): void {
  if (!state.told && veered !== undefined) state.told = asVeered(veered);
  state.everHeaved = true;
  delete state.snubbedAt;
  state.heavingSince ??= at;
}

/** It stops: what it has brought in counts from now on. */
export function stopHeaving(state: WeighState, at: number): void {
  if (state.told) state.told.heaved = heavedFor(state, at);
  delete state.heavingSince;
}

/** Somebody tells the length out; two such tellings with heaving between tell the windlass's rate. */
export function tellOut(state: WeighState, metres: number, sigma: number, at: number): void {
  const before = state.told;
  const seconds = heavedFor(state, at);
  if (before?.from === 'foredeck' && seconds >= OUT.learnFrom) {
    const rate = (before.metres - metres) / seconds;
    if (rate >= OUT.slowest && rate <= OUT.fastest) state.rate = rate;
  }
  state.told = { metres, sigma, heaved: 0, from: 'foredeck' };
  if (state.heavingSince !== undefined) state.heavingSince = at;
}

const asVeered = (metres: number): NonNullable<WeighState['told']> => ({
  metres,
  sigma: Math.max(OUT.veeredSigma.least, OUT.veeredSigma.part * metres),
  heaved: 0,
  from: 'veered',
});

/** She has come up to less than this part of the distance she lay at: cable was probably hove in, whether anybody told or not. */
const COME_UP = 0.85;

/**
 * Cable out now. With neither counter nor word from the foredeck, what was veered while she lies as she did; once she has come up,
 * only that it is no more than that and no less than reaches the bottom. A cable that holds her is never shorter than that.
 */
export function outOf(
  state: WeighState,
  settings: Settings,
  { veered }: Given,
  distance: Estimate | undefined,
  height: Estimate | undefined,
  at: number,
): WeighView['out'] {
  const { counter } = state;
  if (counter && at - counter.at <= OUT.counterAge)
    return { value: counter.metres, sigma: OUT.counterSigma, from: 'counter' };
  const told = state.told ?? (veered === undefined ? undefined : asVeered(veered));
  if (!told) return undefined;
  const least =
    distance && height && !state.brokenOut
      ? Math.hypot(Math.max(0, distance.value - distance.sigma), height.value)
      : 0;
  if (told.from === 'veered' && !state.everHeaved) {
    const cameUp = distance && state.began !== undefined && distance.value < COME_UP * state.began;
    if (!cameUp) return { value: told.metres, sigma: told.sigma, from: 'veered' };
    const low = Math.min(told.metres, Math.max(least, height?.value ?? 0));
    return { value: (low + told.metres) / 2, sigma: (told.metres - low) / Math.sqrt(12) + 1, from: 'bounds' };
  }
  const seconds = heavedFor(state, at);
  const rate = rateOf(state, settings);
  const sigma = Math.hypot(told.sigma, rate.sigma * seconds);
  const counted = Math.max(0, told.metres - rate.value * seconds);
  // Farther off than so much cable reaches is no longer cable: it is an anchor that has come home (see adrift.ts).
  const value = Math.min(Math.max(counted, least), counted + sigma);
  return { value, sigma, from: seconds > 0 ? 'counted' : told.from };
}
