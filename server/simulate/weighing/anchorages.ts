import { fromKnots } from '../../../shared/quantities/units.ts';
import {
  CONSUMER_GNSS,
  fullSet,
  M2,
  minutes,
  TARROCK,
  TWO_FEATHERS,
  tidalStream,
  windThrough,
} from '../fittings.ts';
import type { Scenario } from '../scenario.ts';

/** A minute to look about, in which hawse learns how she lies. */
const AFTER = 60;

const BASE = {
  boat: TARROCK,
  cable: { veered: 40, massPerMetre: 2.3 },
  snubber: 9000,
  anchor: { holding: 6000, patchiness: 0.1, creep: 60_000, breakOut: 1800 },
  seabed: { depth: 6.5, slope: 0.012, deepens: 40, tide: { range: 0, period: M2, highAt: minutes(150) } },
  wind: windThrough([[0, 13, 235]]),
  gnss: CONSUMER_GNSS,
} as const satisfies Partial<Scenario>;

const acrossBy = (knots: number): Scenario['stream'] => ({
  ...tidalStream(0, 145, 0),
  mean: fromKnots(knots),
});

/** Anchorages that a simulated crew leaves, to see the pages of helm and foredeck at work. */
export const weighings = (at: number): Scenario[] => [
  {
    ...BASE,
    name: 'weigh-across',
    title: 'Tansy Reach, a simulated crew weighs',
    description: 'after a minute a simulated crew weighs in 13 kn across a stream of 0.8 kn, as hawse guides',
    start: { lat: -36.1, lon: 163.5, at },
    stream: acrossBy(0.8),
    instruments: fullSet(17.7),
    weighs: { helm: 'guided', after: AFTER },
  },
  {
    ...BASE,
    name: 'weigh-catamaran',
    title: 'Mallow Sound, a simulated crew weighs a catamaran',
    description: 'the same with a catamaran, the stream with the wind',
    start: { lat: -36.1, lon: 163.5, at },
    boat: TWO_FEATHERS,
    stream: { ...acrossBy(0.8), set: 55 },
    instruments: fullSet(17.7),
    weighs: { helm: 'guided', after: AFTER },
  },
  {
    ...BASE,
    name: 'weigh-overrun',
    title: 'Burdock Pool, a simulated crew overruns',
    description:
      'a simulated helm that does not slow down: the cable leads foul and is overrun, to see the warnings',
    start: { lat: -36.1, lon: 163.5, at },
    stream: acrossBy(0.8),
    instruments: fullSet(17.7),
    weighs: { helm: 'overruns', after: AFTER },
  },
];
