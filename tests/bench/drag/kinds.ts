import { anchorages } from '../../../server/simulate/anchorages.ts';
import {
  CONSUMER_GNSS,
  GOOD_GNSS,
  TARROCK,
  TWO_FEATHERS,
  tidalStream,
  windThrough,
} from '../../../server/simulate/fittings.ts';
import { hullOf } from '../../../server/simulate/hull.ts';
import type { AnchorEvent, Gnss, Instruments, Scenario } from '../../../server/simulate/scenario.ts';
import { variation } from '../../../shared/earth/variation.ts';

/** One kind of night: a scenario for each seed, and whether the anchor is meant to hold. */
export interface Kind {
  name: string;
  held: boolean;
  hours: number;
  /** Varied with the seed beyond what the detector assumes: windage, noise, correlation, depth, tide, scope, place, set-back. */
  scenario(seed: number): Scenario;
}

const minutes = (n: number) => n * 60;
const named = (name: string): Scenario => anchorages().find((one) => one.name === name)!;
const base = named('quiet-night');

/** The four sentences that matter, each once a second: the night is the same, the simulator does less. */
const PLAIN: Instruments = {
  ...base.instruments,
  sends: (
    [
      ['RMC', 'GP', 1],
      ['HDG', 'HC', 1],
      ['MWV', 'WI', 1],
      ['DPT', 'SD', 5],
    ] as const
  ).map(([id, talker, every]) => ({ id, talker, every })),
};

/** A number from `low` to `high` that depends on the seed and on what it is for; no two uses march in step. */
function vary(seed: number, use: number, low: number, high: number): number {
  const x = Math.sin(seed * 12.9898 + use * 78.233) * 43758.5453;
  return low + (x - Math.floor(x)) * (high - low);
}

const PLACES = [
  { lat: -36.1, lon: 163.5 },
  { lat: 54.2, lon: -24.1 },
  { lat: 12.3, lon: -44.7 },
  { lat: 0.02, lon: 179.9997 },
  { lat: 66.4, lon: -5.2 },
];

/** Receivers from good to poor; nmea-0183.md §4 measured slow errors of 0.3 to 2.2 m and recommends 1.5 to 2.2 for a usual one. */
function gnssOf(seed: number): Gnss {
  const usual = vary(seed, 1, 0, 1) > 0.3;
  const from = usual ? CONSUMER_GNSS : GOOD_GNSS;
  return {
    ...from,
    slow: { sigma: from.slow.sigma * vary(seed, 2, 0.75, 1.375), tau: vary(seed, 3, 900, 6000) },
    white: from.white * vary(seed, 4, 0.7, 2),
    speedNoise: from.speedNoise * vary(seed, 15, 0.7, 2.5),
  };
}

/** Seconds after the mark at which the anchor digs in, and by when it has done so. */
const DIGS_IN = { from: 60, to: 240 };
export const DUG_IN = 300;

/**
 * The mark is logged where the anchor was let go; digging in, it goes some metres towards the boat: 1–5 m in sand
 * (seamanship-physics.md §10 [P]), more in mud.
 */
const setBack = (seed: number): AnchorEvent => ({
  at: vary(seed, 16, DIGS_IN.from, DIGS_IN.to),
  happens: 'steps',
  metres: vary(seed, 17, 0.5, 6),
});

/** What the crew has logged and told: the mark's error per axis as a multiple of a normal number, m, and the cable as a part of what is really out. */
export const crewOf = (seed: number): { markSigma: number; counted: number } => ({
  markSigma: vary(seed, 18, 1, 3),
  counted: vary(seed, 19, 0.95, 1.05),
});

const boatFor = (seed: number) => (vary(seed, 5, 0, 1) > 0.7 ? TWO_FEATHERS : TARROCK);

/** Windage that hawse does not know of. */
function hullFor(seed: number): { windAhead: number; windAthwart: number } {
  const { windAhead, windAthwart } = hullOf(boatFor(seed));
  const times = vary(seed, 25, 0.75, 1.35);
  return { windAhead: windAhead * times, windAthwart: windAthwart * times };
}

function night(seed: number, change: Partial<Scenario>): Scenario {
  const boat = boatFor(seed);
  const depth = vary(seed, 6, 4, 11);
  const scope = vary(seed, 7, 3.6, 6);
  const place = PLACES[Math.floor(vary(seed, 8, 0, PLACES.length))]!;
  const scenario: Scenario = {
    ...base,
    start: { ...place, at: base.start.at },
    boat,
    hull: hullFor(seed),
    neighbours: [],
    cable: { veered: Math.round((depth + 1.5) * scope), massPerMetre: boat === TWO_FEATHERS ? 1.4 : 2.3 },
    seabed: {
      ...base.seabed,
      depth,
      slope: vary(seed, 9, 0, 0.03),
      deepens: vary(seed, 10, 0, 360),
      tide: { ...base.seabed.tide, range: vary(seed, 26, 0.2, 3.5), highAt: minutes(vary(seed, 27, 0, 700)) },
    },
    stream: tidalStream(vary(seed, 11, 0, 0.8), vary(seed, 12, 0, 360), vary(seed, 13, 0, 300)),
    gnss: gnssOf(seed),
    // What the compass states is of this place, or hawse would not believe it; it is wrong by a degree or so.
    instruments: {
      ...PLAIN,
      compass: {
        ...PLAIN.compass,
        variation: variation(place.lat, place.lon, base.start.at)!.value + vary(seed, 14, -1.5, 1.5),
      },
    },
    anchor: { patchiness: 0.1, creep: 60_000, breakOut: 1e6 },
    ...change,
  };
  const { anchor } = scenario;
  return { ...scenario, anchor: { ...anchor, events: [setBack(seed), ...(anchor.events ?? [])] } };
}

const wind = (seed: number, knots: number, later = knots, turns = 20) => {
  const from = vary(seed, 20, 0, 360);
  const k = vary(seed, 21, 0.85, 1.2);
  return windThrough(
    [
      [0, knots * k, from],
      [30, knots * k, from],
      [150, later * k, from + turns],
    ],
    vary(seed, 22, 0.08, 0.2),
    vary(seed, 23, 4, 11),
  );
};

const held = (name: string, hours: number, change: (seed: number) => Partial<Scenario>): Kind => ({
  name,
  held: true,
  hours,
  scenario: (seed) => night(seed, change(seed)),
});

const dragging = (name: string, hours: number, change: (seed: number) => Partial<Scenario>): Kind => ({
  name,
  held: false,
  hours,
  scenario: (seed) => night(seed + 500, change(seed + 500)),
});

const anchor = (...events: AnchorEvent[]): Scenario['anchor'] => ({
  patchiness: 0.1,
  creep: 60_000,
  breakOut: 1e6,
  events,
});

/** An anchor that gives way near the load of a wind of so many knots on this boat. */
const creeping = (seed: number, knots: number, creep: number): Scenario['anchor'] => ({
  holding: 0.5 * 1.225 * hullFor(seed).windAhead * vary(seed, 30, 0.95, 1.25) * (knots * 0.514) ** 2,
  patchiness: 0.2,
  creep,
  breakOut: 1e6,
});

export const KINDS: Kind[] = [
  held('calm', 8, (seed) => ({ wind: wind(seed, 4, 6, 60) })),
  held('moderate', 8, (seed) => ({ wind: wind(seed, 13, 15) })),
  held('gusty', 8, (seed) => ({ wind: { ...wind(seed, 18, 24), gusts: { intensity: 0.25, time: 25 } } })),
  held('rising', 8, (seed) => ({ wind: wind(seed, 7, 28, 30) })),
  held('against tide', 8, (seed) => ({
    wind: wind(seed, 13, 14),
    stream: tidalStream(2, vary(seed, 20, 0, 360), 40),
  })),
  held('reversal', 8, (seed) => ({
    wind: wind(seed, 9, 9),
    stream: tidalStream(1.8, vary(seed, 20, 0, 360) + 180, 60),
  })),
  held('180° shift', 8, (seed) => ({ wind: wind(seed, 12, 14, 180) })),
  held('squall', 8, (seed) => ({
    wind: {
      ...wind(seed, 11, 10),
      squalls: [
        {
          at: minutes(70),
          rise: 90,
          hold: minutes(12),
          fall: 400,
          speed: vary(seed, 31, 14, 19),
          shift: vary(seed, 32, -60, 60),
        },
      ],
    },
  })),
  held('GNSS glitches', 8, (seed) => ({
    wind: wind(seed, 13, 15),
    gnss: {
      ...gnssOf(seed),
      changes: { perDay: 40, sigma: 2.5 },
      faults: [
        { kind: 'jump', from: minutes(60), to: minutes(60) + 4, north: 60, east: -45 },
        { kind: 'frozen', from: minutes(100), to: minutes(125) },
        { kind: 'silent', from: minutes(200), to: minutes(203) },
      ],
    },
  })),
  held('bad sky', 8, (seed) => ({
    wind: wind(seed, 11, 13),
    gnss: {
      ...gnssOf(seed),
      faults: [
        {
          kind: 'bad-sky',
          from: minutes(60),
          to: minutes(110),
          sigma: vary(seed, 33, 20, 60),
          tau: vary(seed, 34, 120, 300),
          speedNoise: 1.2,
        },
      ],
    },
  })),
  dragging('creep, strong wind', 4, (seed) => ({
    wind: wind(seed, 12, 32),
    anchor: creeping(seed, 24, 40_000),
  })),
  dragging('creep, moderate wind', 5, (seed) => ({
    wind: wind(seed, 12, 17),
    anchor: creeping(seed, 13, 120_000),
  })),
  dragging('squall', 3, (seed) => ({
    wind: {
      ...wind(seed, 11, 10),
      squalls: [
        {
          at: minutes(70),
          rise: 90,
          hold: minutes(15),
          fall: 400,
          speed: vary(seed, 31, 15, 19),
          shift: vary(seed, 32, -40, 40),
        },
      ],
    },
    anchor: creeping(seed, 22, 4000),
  })),
  dragging('trip at the turn', 4, (seed) => ({
    wind: wind(seed, 13, 14),
    stream: tidalStream(1.6, vary(seed, 20, 0, 360), 60),
    anchor: anchor({ at: minutes(75), happens: 'trips', residual: vary(seed, 35, 120, 350) }),
  })),
  dragging('step by step', 5, (seed) => ({
    wind: wind(seed, 14, 18),
    anchor: anchor(
      ...[60, 85, 110, 130, 150, 170, 190].map((at) => ({
        at: minutes(at),
        happens: 'steps' as const,
        metres: vary(seed, at, 2, 5),
      })),
    ),
  })),
  dragging('parted cable', 2, (seed) => ({
    wind: wind(seed, vary(seed, 36, 10, 24)),
    anchor: anchor({ at: minutes(vary(seed, 37, 40, 80)), happens: 'parts' }),
  })),
];
