import { createTidePredictor, type TidePrediction } from '@neaps/tide-predictor';
import type { TideTurn } from './height.ts';

/** A tidal constituent of a place: name as in the IHO list (M2, S2, K1, …), amplitude in metres, phase lag κ in degrees of GMT. */
export interface Constituent {
  name: string;
  amplitude: number;
  phase: number;
}

export interface HarmonicTide {
  state: 'tide';
  /** Height at UNIX seconds, m above datum. */
  height(at: number): number;
  /** High and low waters between two times, UNIX seconds. */
  turns(from: number, until: number): (TideTurn & { high: boolean })[];
}

/** Beyond the year 2200 the astronomy of the package is no longer meant, UNIX seconds. */
const LATEST = 7.26e9;
/** Longest span that turns are looked for in, seconds: a month. */
const LONGEST = 31 * 86_400;

/**
 * Harmonic prediction h = Z₀ + Σ f·H·cos(V₀ + u + at − κ) (Schureman, SP 98), by the package @neaps/tide-predictor with IHO
 * node corrections (or Schureman's). The package takes NaN for an amplitude and skips names that it does not know: here both are
 * refused, in words. `meanLevel` is Z₀, m above datum.
 */
export function harmonicTide(
  constituents: readonly Constituent[],
  meanLevel = 0,
  nodeCorrections: 'iho' | 'schureman' = 'iho',
): HarmonicTide | { state: 'refused'; reason: string } {
  const fault = faultOf(constituents, meanLevel);
  if (fault) return { state: 'refused', reason: fault };
  const predictor = createTidePredictor(
    constituents.map(({ name, amplitude, phase }) => ({ name, amplitude, phase })),
    { offset: meanLevel, nodeCorrections },
  );
  return {
    state: 'tide',
    height: (at) => heightAt(predictor, at),
    turns: (from, until) => {
      if (!(until > from && until - from <= LONGEST)) return [];
      return predictor
        .getExtremesPrediction({ start: new Date(from * 1000), end: new Date(until * 1000) })
        .map(({ time, level, high }) => ({ at: time.getTime() / 1000, height: level, high }));
    },
  };
}

/** Height at a second. The package's own getWaterLevelAtTime answers for the ten minutes before: up to 8 % of the amplitude off. */
function heightAt(predictor: TidePrediction, at: number): number {
  if (!(Math.abs(at) < LATEST)) throw new RangeError(`There is no tide at the UNIX time ${at}.`);
  const start = new Date(Math.floor(at) * 1000);
  const end = new Date(start.getTime() + 1000);
  const points = predictor.getTimelinePrediction({ start, end, timeFidelity: 1 });
  return points[0]!.level + (points[1]!.level - points[0]!.level) * (at - Math.floor(at));
}

function faultOf(constituents: readonly Constituent[], meanLevel: number): string | undefined {
  if (constituents.length === 0) return 'No constituent is given; at least one is needed, e.g. M2.';
  if (!Number.isFinite(meanLevel)) return 'The mean level is not a number.';
  const seen = new Set<string>();
  for (const { name, amplitude, phase } of constituents) {
    const known = Object.hasOwn(createTidePredictor.constituents, name)
      ? createTidePredictor.constituents[name]
      : undefined;
    if (!known) {
      return `Constituent "${name}" is not known; names are those of the IHO list, e.g. M2, S2, N2, K1, O1.`;
    }
    if (seen.has(known.name)) return `Constituent ${name} is given twice.`;
    seen.add(known.name);
    if (!(amplitude >= 0 && amplitude < 20)) {
      return `The amplitude of ${name} is ${amplitude}; a number from 0 to 20 m is needed.`;
    }
    if (!(Math.abs(phase) <= 360)) {
      return `The phase of ${name} is ${phase}; degrees from −360 to 360 are needed.`;
    }
  }
  return undefined;
}
