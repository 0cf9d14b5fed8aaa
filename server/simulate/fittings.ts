import { fromKnots } from '../../shared/quantities/units.ts';
import type { Boat } from '../../shared/settings.ts';
import type { Gnss, Instruments, SentenceId, Stream, Wind } from './scenario.ts';

/** Boats, receivers, instruments, wind and stream that the anchorages are put together from. All invented. */

export const TARROCK: Boat = {
  name: 'Tarrock',
  hull: 'monohull',
  length: 12.2,
  beam: 3.9,
  draft: 1.9,
  roller: { height: 1.4 },
  antenna: { aftOfRoller: 10.6, toStarboard: 0.9 },
  sounder: { belowWaterline: 0.6, aftOfRoller: 4.6 },
  windage: {},
};

export const PELLOW: Boat = {
  name: 'Pellow',
  hull: 'monohull',
  length: 10.4,
  beam: 3.4,
  draft: 1.7,
  roller: { height: 1.2 },
  antenna: { aftOfRoller: 9.4, toStarboard: 0 },
  sounder: { belowWaterline: 0.5, aftOfRoller: 3.8 },
  windage: {},
};

export const TWO_FEATHERS: Boat = {
  name: 'Two Feathers',
  hull: 'catamaran',
  length: 12.8,
  beam: 7,
  draft: 1.2,
  roller: { height: 1.7 },
  antenna: { aftOfRoller: 10.5, toStarboard: -2.4 },
  sounder: { belowWaterline: 0.4, aftOfRoller: 5 },
  windage: {},
};

/** nmea-0183.md §4: "typical consumer" of the noise model to start from. */
export const CONSUMER_GNSS: Gnss = {
  every: 1,
  slow: { sigma: 1.6, tau: 1800 },
  white: 0.2,
  changes: { perDay: 10, sigma: 1.5 },
  speedNoise: 0.04,
  decimals: 4,
  satellites: 10,
  hdop: 0.9,
};

/** Same table: "good" receiver and sky. */
export const GOOD_GNSS: Gnss = {
  ...CONSUMER_GNSS,
  slow: { sigma: 0.7, tau: 5400 },
  white: 0.15,
  changes: { perDay: 6, sigma: 0.8 },
  speedNoise: 0.03,
  decimals: 5,
  satellites: 17,
  hdop: 0.6,
};

const TALKERS: [SentenceId, string, number][] = [
  ['RMC', 'GP', 1],
  ['GGA', 'GP', 1],
  ['ZDA', 'GP', 10],
  ['HDG', 'HC', 0.5],
  ['MWV', 'WI', 1],
  ['VHW', 'VW', 1],
  ['DPT', 'SD', 1],
  ['MTW', 'YX', 10],
];

/** Sent where a chain counter and a talkative receiver are on board. */
export const MORE: typeof TALKERS = [
  ['GLL', 'GP', 1],
  ['VTG', 'GP', 1],
  ['XDR', 'II', 5],
];

/** A full set of instruments with small faults of their own, for a place with this magnetic variation (degrees, east positive). */
export const fullSet = (variation: number, more: typeof TALKERS = []): Instruments => ({
  sends: [...TALKERS, ...more].map(([id, talker, every]) => ({ id, talker, every })),
  compass: { noise: 0.8, deviation: 2, variation },
  vane: { angleNoise: 2, speedNoise: 0.04, misaligned: -1.5 },
  log: { factor: 0.96, starts: 0.1 },
  sounder: { noise: 0.06 },
  waterTemperature: 18.4,
});

const MINUTE = 60;
export const minutes = (n: number): number => n * MINUTE;

/** Period of the lunar semi-diurnal tide M2, s: 360° ÷ 28.9841042° an hour (seamanship-physics.md §5 [F]). */
export const M2 = (360 / 28.9841042) * 3600;

/** Wind through [minutes, knots, direction it blows from]. */
export const windThrough = (points: [number, number, number][], intensity = 0.14, meander = 7): Wind => ({
  knots: points.map(([at, speedKnots, from]) => ({ at: minutes(at), speed: fromKnots(speedKnots), from })),
  gusts: { intensity, time: 20 },
  meander: { sigma: meander, time: 240 },
});

/** A stream of this many knots at its strongest that sets to and fro, slack at so many minutes. */
export const tidalStream = (knots: number, set: number, slackAt: number): Stream => ({
  mean: 0,
  amplitude: fromKnots(knots),
  set,
  across: 0.08,
  period: M2,
  slackAt: minutes(slackAt),
  eddies: 0.03,
});
