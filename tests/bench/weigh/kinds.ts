import { anchorages } from '../../../server/simulate/anchorages.ts';
import { TWO_FEATHERS } from '../../../server/simulate/fittings.ts';
import type { Scenario, SentenceId } from '../../../server/simulate/scenario.ts';
import { fromKnots } from '../../../shared/quantities/units.ts';

/** Weighings that are simulated for the table of docs/weigh.md. Invented; they show behaviour, and prove no physics. */
export interface Kind {
  hull: 'monohull' | 'catamaran';
  /** None, or where the stream runs against the wind: with it, across it, or against it, 0.8 kn. */
  stream: 'none' | 'with' | 'across' | 'against';
  windKnots?: number;
  /** Upward pull that breaks the anchor out, N. */
  breakOut?: number;
  /** Sentences that are not sent. */
  without?: SentenceId[];
  counter?: boolean;
}

const WIND_FROM = 235;
const SETS = { none: 55, with: 55, across: 145, against: 235 };

export function scenarioOf(kind: Kind): Scenario {
  const { hull, stream, windKnots = 13, breakOut = 1800, without = [], counter = false } = kind;
  const base = anchorages().find(({ name }) => name === 'quiet-night')!;
  const sends = base.instruments.sends.filter(({ id }) => !without.includes(id));
  if (counter) sends.push({ id: 'XDR', talker: 'II', every: 1 });
  return {
    ...base,
    ...(hull === 'catamaran' ? { boat: TWO_FEATHERS } : {}),
    anchor: { ...base.anchor, breakOut },
    seabed: { ...base.seabed, tide: { ...base.seabed.tide, range: 0 } },
    wind: {
      knots: [{ at: 0, speed: fromKnots(windKnots), from: WIND_FROM }],
      gusts: { intensity: 0.14, time: 20 },
      meander: { sigma: 7, time: 240 },
    },
    stream: {
      ...base.stream,
      mean: stream === 'none' ? 0 : fromKnots(0.8),
      amplitude: 0,
      set: SETS[stream],
    },
    gnss: { ...base.gnss, slow: { sigma: 2, tau: 1200 } },
    instruments: { ...base.instruments, sends },
  };
}
