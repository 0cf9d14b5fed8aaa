import { localPlane } from '../earth/local.ts';
import type { LatLon } from '../quantities/estimate.ts';
import { towards } from '../quantities/vector.ts';
import type { Settings } from '../settings.ts';
import { serving } from '../vessel/channel.ts';
import type { VesselState } from '../vessel/state.ts';
import type { VesselView } from '../vessel/view.ts';
import { fitAntenna, type LyingSample } from './antenna.ts';
import { type CourseSample, fitDeviation } from './deviation.ts';
import { fitSounder, sentOffset } from './sounder.ts';
import type { Fitted, Fitting } from './view.ts';

/** What has been laid by for a comparison of figures with data. Plain data. */
export interface Collected {
  at?: number;
  /** Which mark the samples at anchor belong to. */
  mark?: LatLon;
  lying: LyingSample[];
  underWay: CourseSample[];
  /** The deviation card under which the courses were taken. */
  card?: string;
}

export const createFitting = (): Collected => ({ lying: [], underWay: [] });

/** Seconds between samples, and how many are kept: six hours at anchor, two hours under way. */
const LYING = { every: 2, kept: 10_800 };
const UNDER_WAY = { every: 1, kept: 7200 };
/** Dropped at a time when there are too many. */
const DROPPED = 600;
/** 3 kn: below it a course over the ground is as rough as a compass. 6 m/s, force 4: above it leeway is more than a degree or two. */
const FAST = 1.5;
const LIGHT = 6;
/** An offer stands where told and estimated differ by more than so many sigma. */
const CLEAR = 2.5;

/** Lays one moment by, if it tells anything. The view is of `settings`, and the mark is the one of the watch. */
export function observe(
  collected: Collected,
  settings: Settings,
  vessel: VesselView,
  mark: LatLon | undefined,
): void {
  collected.at = vessel.at;
  if (mark?.lat !== collected.mark?.lat || mark?.lon !== collected.mark?.lon) {
    collected.lying = [];
    delete collected.mark;
    if (mark) collected.mark = { lat: mark.lat, lon: mark.lon };
  }
  const card = JSON.stringify(settings.deviation);
  if (card !== collected.card) {
    collected.lying = [];
    collected.underWay = [];
    collected.card = card;
  }
  const { antenna, heading, positionDoubt } = vessel;
  if (!heading || positionDoubt) return;
  if (mark && antenna && isDue(collected.lying, antenna.at, LYING)) {
    const { east, north } = localPlane(mark).toLocal(antenna.value);
    collected.lying.push({ at: antenna.at, east, north, heading: heading.value });
  }
  if (!mark) course(collected, vessel, heading);
}

function course(collected: Collected, vessel: VesselView, heading: NonNullable<VesselView['heading']>): void {
  const { sog, cog, waterSpeed, windGround, variation } = vessel;
  if (!sog || !cog || !waterSpeed || sog.value < FAST || waterSpeed.value.ahead < FAST) return;
  // A sensor of true heading has no card; and in a fresh wind leeway would be taken for deviation.
  if (heading.from === 'true' || variation === undefined || (windGround && windGround.value.speed > LIGHT))
    return;
  if (!isDue(collected.underWay, sog.at, UNDER_WAY)) return;
  const { east, north } = towards(sog.value, cog.value);
  const { ahead: log } = waterSpeed.value;
  collected.underWay.push({ at: sog.at, heading: heading.value, variation, east, north, log });
}

function isDue(samples: { at: number }[], at: number, { every, kept }: typeof LYING): boolean {
  const last = samples.at(-1);
  if (last && at - last.at < every) return false;
  if (samples.length >= kept) samples.splice(0, DROPPED);
  return true;
}

/** What instruments say of themselves. */
export interface Said {
  /** DPT's offset, metres. */
  offset?: number;
  /** The compass corrects its deviation by a card of its own: ours is not applied. */
  ownCard: boolean;
}

export function saidOf(vessel: VesselState): Said {
  const compass = serving(vessel.heading)?.value;
  const offset = sentOffset(vessel);
  return {
    ownCard: compass?.kind === 'heading-magnetic' && compass.deviationApplied,
    ...(offset === undefined ? {} : { offset }),
  };
}

/** The figures that people gave beside what the data and the instruments themselves say. */
export function fitting(collected: Collected, settings: Settings, { offset, ownCard }: Said): Fitting {
  return {
    antennaAft: antennaAft(collected.lying, settings),
    sounder: fitSounder(offset, settings.boat),
    deviation: fitDeviation(collected.underWay, settings, ownCard),
  };
}

function antennaAft(samples: readonly LyingSample[], { boat }: Settings): Fitted {
  const told = boat.antenna.aftOfRoller;
  const fit = fitAntenna(samples, boat.antenna);
  const { estimate } = fit;
  if (!estimate) return { told, ...fit };
  const differs = Math.abs(estimate.value - told) > CLEAR * estimate.sigma;
  return { told, estimate, ...(differs ? { offer: Math.round(estimate.value * 2) / 2 } : {}) };
}
