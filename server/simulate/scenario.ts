import type { Boat, Limits } from '../../shared/settings.ts';
import type { HullForm } from './hull.ts';
import type { HelmKind } from './weighing/crew.ts';

/**
 * Everything that makes a simulated anchorage. SI units, directions in degrees true; wind blows *from*, stream runs *towards*.
 * Times of what happens (`at`, `from`, `to`) are seconds after the start.
 */
export interface Scenario {
  name: string;
  title: string;
  description: string;
  /** Where the anchor lies at the start, and when that is (UNIX seconds). */
  start: { lat: number; lon: number; at: number };
  boat: Boat;
  /** What the hull does in wind and water, where it differs from what its size suggests. */
  hull?: Partial<HullForm>;
  cable: { veered: number; massPerMetre: number };
  /** Spring of snubber and cable together, N per metre of stretch; absent: chain only. */
  snubber?: number;
  anchor: Anchor;
  seabed: Seabed;
  wind: Wind;
  stream: Stream;
  gnss: Gnss;
  instruments: Instruments;
  /** Limits that the crew of this boat would set, where they differ from the usual ones. */
  limits?: Limits;
  neighbours?: readonly SimulatedNeighbour[];
  /** In a rehearsal a simulated crew weighs, so many seconds after the start. */
  weighs?: { helm: HelmKind; after: number };
}

/** A vessel nearby that AIS shows. */
export interface SimulatedNeighbour {
  name: string;
  mmsi: number;
  unit: 'A' | 'B';
  length: number;
  beam: number;
  /** Where her anchor lies (or her route begins), metres from where ours was let go, and how far her roller lies from it, m. */
  anchor: { east: number; north: number };
  reach: number;
  /** She drags downwind from then on, at this speed, m/s. */
  drags?: { at: number; speed: number };
  /** She is under way: course and speed, at her place then. */
  route?: { course: number; speed: number; at: number };
}

export interface Anchor {
  /** Greatest steady pull along the bottom that it holds, N; absent: whatever comes. */
  holding?: number;
  /** How the bottom varies: standard deviation of the holding as a part of it. */
  patchiness?: number;
  /** N of pull beyond the holding for each m/s that it ploughs. */
  creep?: number;
  /** Upward pull that breaks it out, N. */
  breakOut: number;
  events?: AnchorEvent[];
}

export type AnchorEvent =
  /** It breaks out and slides with this resistance (N) until it has ploughed `resetsAfter` metres (absent: for good). */
  | { at: number; happens: 'trips'; residual: number; resetsAfter?: number }
  /** It moves this far towards the boat, at a slow walk, and holds again. */
  | { at: number; happens: 'steps'; metres: number }
  | { at: number; happens: 'parts' };

export interface Seabed {
  /** Depth at the anchor at mean tide, m. */
  depth: number;
  /** Metres deeper for each metre in the direction `deepens`. */
  slope: number;
  deepens: number;
  tide: { range: number; period: number; highAt: number };
}

export interface Wind {
  /** Mean wind through these points, straight between them, the last one holds. `from` may run beyond 0…360 to show the way it turns. */
  knots: { at: number; speed: number; from: number }[];
  /** Standard deviation of the speed as a part of the mean, and 1/e time of the gusts, s. */
  gusts: { intensity: number; time: number };
  /** Standard deviation of the direction, degrees, and its 1/e time, s. */
  meander: { sigma: number; time: number };
  squalls?: { at: number; rise: number; hold: number; fall: number; speed: number; shift: number }[];
}

export interface Stream {
  mean: number;
  amplitude: number;
  /** Direction it sets while the sine is positive; `across` is the part of the amplitude that turns through the slack. */
  set: number;
  across: number;
  period: number;
  /** A slack before it sets along `set`. */
  slackAt: number;
  /** Standard deviation of eddies, m/s. */
  eddies: number;
}

export interface Gnss {
  /** Seconds between fixes. */
  every: number;
  /** Per axis: standard deviation and 1/e time of the slow error, standard deviation of the fast one, m. */
  slow: { sigma: number; tau: number };
  white: number;
  /** Changes of the satellites in use: how many a day, and how far they throw the fix (standard deviation per axis, m). */
  changes: { perDay: number; sigma: number };
  /** Standard deviation of the speed per axis, m/s. */
  speedNoise: number;
  /** Decimals of the minutes sent. */
  decimals: number;
  /** Below this speed (m/s) the receiver repeats its position; absent: it never does. */
  staticHold?: number;
  satellites: number;
  hdop: number;
  faults?: GnssFault[];
}

export type GnssFault = { from: number; to: number } & (
  | { kind: 'silent' }
  /** It says that it has no fix. */
  | { kind: 'void' }
  /** It sends the last sentences again and again, time included. */
  | { kind: 'frozen' }
  | { kind: 'bad-sky'; sigma: number; tau: number; speedNoise: number }
  | { kind: 'jump'; north: number; east: number }
);

export type SentenceId =
  | 'RMC'
  | 'GGA'
  | 'GLL'
  | 'VTG'
  | 'ZDA'
  | 'HDG'
  | 'MWV'
  | 'VHW'
  | 'DPT'
  | 'MTW'
  | 'XDR';

export interface Instruments {
  /** Which sentences go out, each with its talker and the seconds between two of them. Those of the GNSS go with the fix. */
  sends: { id: SentenceId; talker: string; every: number }[];
  compass: { noise: number; deviation: number; variation: number };
  /** Noise of the angle in degrees, of the speed as a part of it; how far the vane is out of line, degrees. */
  vane: { angleNoise: number; speedNoise: number; misaligned: number };
  /** Calibration factor of the log, and the speed at which its wheel begins to turn, m/s. */
  log: { factor: number; starts: number };
  sounder: { noise: number };
  waterTemperature: number;
}
