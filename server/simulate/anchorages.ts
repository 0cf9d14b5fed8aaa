import { fromKnots } from '../../shared/quantities/units.ts';
import {
  CONSUMER_GNSS,
  fullSet,
  GOOD_GNSS,
  M2,
  MORE,
  minutes,
  PELLOW,
  TARROCK,
  TWO_FEATHERS,
  tidalStream,
  windThrough,
} from './fittings.ts';
import type { Scenario } from './scenario.ts';
import { weighings } from './weighing/anchorages.ts';

/** 14 March 2026, 07:00 UTC. */
const AT = Date.UTC(2026, 2, 14, 7) / 1000;

const MONOHULL = {
  boat: TARROCK,
  cable: { veered: 40, massPerMetre: 2.3 },
  snubber: 9000,
  anchor: { holding: 6000, patchiness: 0.1, creep: 60_000, breakOut: 5000 },
  gnss: CONSUMER_GNSS,
} as const satisfies Partial<Scenario>;

const seabed = (depth: number, range = 1.8, highAt = 150, deepens = 40): Scenario['seabed'] => ({
  depth,
  slope: 0.012,
  deepens,
  tide: { range, period: M2, highAt: minutes(highAt) },
});

/** Boats that lie around; numbers of a country code that is not in use. */
const COMPANY: Scenario['neighbours'] = [
  {
    name: 'Moss Lantern',
    mmsi: 990_100_001,
    unit: 'B',
    length: 11,
    beam: 4,
    anchor: { east: 95, north: 30 },
    reach: 30,
  },
  {
    name: 'Grey Withy',
    mmsi: 990_100_002,
    unit: 'B',
    length: 14,
    beam: 4,
    anchor: { east: -70, north: -120 },
    reach: 38,
  },
  {
    name: 'Ostrava Loam',
    mmsi: 990_100_003,
    unit: 'A',
    length: 38,
    beam: 8,
    anchor: { east: 210, north: -160 },
    reach: 70,
  },
];

/** The simulated anchorages of `hawse rehearse`. Places out at sea, with names and boats that don't exist. */
export const anchorages = (): Scenario[] => [
  {
    ...MONOHULL,
    name: 'quiet-night',
    title: 'Pinnet Cove, a quiet night',
    description: '8 to 14 kn and gusty, a stream of 1 kn that turns; the anchor holds',
    start: { lat: -36.1, lon: 163.5, at: AT },
    seabed: seabed(6.5),
    wind: windThrough([
      [0, 11, 235],
      [240, 12, 250],
      [600, 9, 270],
    ]),
    stream: tidalStream(1, 20, 25),
    instruments: fullSet(17.7),
    neighbours: COMPANY,
  },
  {
    ...MONOHULL,
    name: 'wind-against-tide',
    title: 'Sallow Narrows, wind against tide',
    description: '15 kn against a stream of up to 2 kn: she sails about on a slack cable; the anchor holds',
    start: { lat: 46.4, lon: -21.3, at: AT },
    cable: { veered: 45, massPerMetre: 2.3 },
    seabed: seabed(8, 3.2, 30),
    wind: windThrough([
      [0, 15, 200],
      [300, 17, 210],
    ]),
    stream: tidalStream(2, 190, 40),
    instruments: fullSet(-6),
  },
  {
    ...MONOHULL,
    name: 'squall',
    title: 'Gannet Roads, a squall',
    description: 'a squall of 35 kn for a quarter of an hour with a shift of 50°; the anchor holds',
    start: { lat: -24.5, lon: 179.9995, at: AT },
    cable: { veered: 50, massPerMetre: 2.3 },
    anchor: { ...MONOHULL.anchor, holding: 16_000 },
    seabed: seabed(7),
    wind: {
      ...windThrough([
        [0, 12, 110],
        [300, 10, 120],
      ]),
      squalls: [{ at: minutes(15), rise: 90, hold: minutes(15), fall: 400, speed: fromKnots(35), shift: 50 }],
    },
    stream: tidalStream(0.5, 80, 60),
    instruments: fullSet(15),
  },
  {
    ...MONOHULL,
    name: 'drag-creep',
    title: 'Marl Bight, soft mud',
    description: 'the wind rises from 10 to 30 kn in two hours and the anchor creeps through mud',
    start: { lat: 31.2, lon: -58.7, at: AT },
    anchor: { holding: 900, patchiness: 0.25, creep: 40_000, breakOut: 4000 },
    seabed: seabed(6),
    wind: windThrough([
      [0, 10, 300],
      [20, 12, 300],
      [120, 30, 315],
      [300, 28, 320],
    ]),
    stream: tidalStream(0.4, 120, 90),
    instruments: fullSet(-15),
  },
  {
    ...MONOHULL,
    name: 'drag-trip',
    title: 'Cutwater Sound, the turn of the tide',
    description: 'the anchor trips when the stream turns, ploughs, holds again, and trips once more',
    start: { lat: -33.4, lon: -19.2, at: AT },
    anchor: {
      ...MONOHULL.anchor,
      events: [
        { at: minutes(32), happens: 'trips', residual: 250, resetsAfter: 25 },
        { at: minutes(75), happens: 'trips', residual: 60 },
      ],
    },
    seabed: seabed(7, 2.4),
    wind: windThrough([
      [0, 18, 20],
      [300, 20, 30],
    ]),
    stream: tidalStream(1.6, 10, 20),
    instruments: fullSet(-23.2),
  },
  {
    ...MONOHULL,
    name: 'parted',
    title: 'Anvil Haven, a parted cable',
    description: '20 kn, and after a quarter of an hour the cable parts',
    start: { lat: 54.1, lon: -23.8, at: AT },
    anchor: { ...MONOHULL.anchor, events: [{ at: minutes(15), happens: 'parts' }] },
    seabed: seabed(7),
    wind: windThrough([
      [0, 20, 260],
      [300, 22, 265],
    ]),
    stream: tidalStream(0.6, 45, 100),
    instruments: fullSet(-8.7),
  },
  {
    ...MONOHULL,
    name: 'frozen-fix',
    title: 'Lantern Reach, a frozen fix',
    description:
      'the receiver repeats one fix, time included, for a quarter of an hour; later the cable parts meanwhile',
    start: { lat: 12.6, lon: -44.2, at: AT },
    boat: PELLOW,
    cable: { veered: 32, massPerMetre: 1.4 },
    anchor: { ...MONOHULL.anchor, events: [{ at: minutes(62), happens: 'parts' }] },
    seabed: seabed(5, 0.8, 150, 270),
    wind: windThrough([
      [0, 13, 70],
      [300, 14, 80],
    ]),
    stream: tidalStream(0.5, 260, 50),
    gnss: {
      ...CONSUMER_GNSS,
      faults: [
        { kind: 'frozen', from: minutes(10), to: minutes(25) },
        { kind: 'frozen', from: minutes(60), to: minutes(75) },
      ],
    },
    instruments: fullSet(-16.4),
  },
  {
    ...MONOHULL,
    name: 'bad-sky',
    title: 'Slate Hole, under the cliff',
    description:
      'the fix wanders by tens of metres for half an hour, later jumps and fails; the anchor holds',
    start: { lat: 40.8, lon: -161.7, at: AT },
    boat: PELLOW,
    cable: { veered: 34, massPerMetre: 1.4 },
    seabed: seabed(5.5, 1),
    wind: windThrough([
      [0, 9, 340],
      [300, 11, 350],
    ]),
    stream: tidalStream(0.3, 150, 30),
    gnss: {
      ...CONSUMER_GNSS,
      faults: [
        { kind: 'bad-sky', from: minutes(10), to: minutes(40), sigma: 45, tau: 180, speedNoise: 1.2 },
        { kind: 'jump', from: minutes(60), to: minutes(60) + 3, north: 70, east: -45 },
        { kind: 'void', from: minutes(70), to: minutes(72) },
        { kind: 'silent', from: minutes(80), to: minutes(83) },
      ],
    },
    instruments: fullSet(9.6),
  },
  {
    ...MONOHULL,
    name: 'catamaran-tide',
    title: 'Ferry Gut, a catamaran in the tide',
    description: 'a catamaran in 12 kn across a stream of 1.8 kn that turns; the anchor holds',
    start: { lat: -41.9, lon: 88.3, at: AT },
    boat: TWO_FEATHERS,
    seabed: seabed(6, 2.6),
    gnss: GOOD_GNSS,
    wind: windThrough([
      [0, 12, 285],
      [300, 14, 295],
    ]),
    stream: tidalStream(1.8, 200, 35),
    instruments: fullSet(-35.5, MORE),
  },
  {
    ...MONOHULL,
    name: 'push-out',
    title: 'Shove Bay, out of the circle',
    description:
      'the cable parts after twenty seconds in 25 kn and a stream of 1.5 kn: out of the circle within two minutes',
    start: { lat: 28.3, lon: 160.4, at: AT },
    cable: { veered: 28, massPerMetre: 2.3 },
    anchor: { ...MONOHULL.anchor, events: [{ at: 20, happens: 'parts' }] },
    seabed: seabed(5, 0.6),
    wind: windThrough([[0, 25, 180]], 0.1, 4),
    stream: { ...tidalStream(0, 0, 0), mean: fromKnots(1.5) },
    gnss: GOOD_GNSS,
    instruments: fullSet(0.5),
  },
  {
    ...MONOHULL,
    name: 'neighbours',
    title: 'Haven of Reeds, six neighbours',
    description:
      'six vessels on AIS: two of them drag, one towards us after a quarter of an hour; another passes close; our anchor holds',
    start: { lat: -12.4, lon: 96.2, at: AT },
    anchor: { ...MONOHULL.anchor, holding: 12_000 },
    seabed: seabed(7),
    wind: windThrough([
      [0, 16, 200],
      [10, 24, 200],
      [300, 22, 210],
    ]),
    stream: tidalStream(0.4, 30, 60),
    instruments: fullSet(-2.4),
    neighbours: [
      ...COMPANY,
      {
        name: 'Slow Otter',
        mmsi: 990_100_004,
        unit: 'B',
        length: 12,
        beam: 4,
        anchor: { east: -25, north: -150 },
        reach: 34,
        drags: { at: minutes(15), speed: 0.25 },
      },
      {
        name: 'Brass Thimble',
        mmsi: 990_100_005,
        unit: 'A',
        length: 24,
        beam: 6,
        anchor: { east: 330, north: 60 },
        reach: 55,
        drags: { at: minutes(12), speed: 0.3 },
      },
      {
        name: 'Night Ferry',
        mmsi: 990_100_006,
        unit: 'A',
        length: 30,
        beam: 7,
        anchor: { east: -900, north: 65 },
        reach: 0,
        route: { course: 90, speed: 2, at: minutes(5) },
      },
    ],
  },
  ...weighings(AT),
];
