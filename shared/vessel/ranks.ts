import type { FixQuality, PositionObservation } from '../sentences/observation.ts';

/**
 * Which sentence is believed before which, the best first: what comes nearest to the measurement, and what says how good it is,
 * goes first (our choice, common practice of the trade).
 */
const ORDER = {
  /** RMC and VTG are the receiver's own; VBW needs the heading to become a course. */
  motion: ['RMC', 'VTG', 'VBW'],
  /** True before magnetic; HDG tells its deviation and variation, HDM does not; the log only passes a heading on. */
  heading: ['THS', 'HDT', 'HDG', 'HDM', 'VHW'],
  variation: ['HDG', 'RMC'],
  wind: ['MWV', 'VWR'],
  windGround: ['MWD'],
  /** DPT tells the offset of its transducer. */
  depth: ['DPT', 'DBS', 'DBK', 'DBT'],
  waterSpeed: ['VBW', 'VHW'],
  stream: ['VDR'],
  waterTemperature: ['MTW'],
} as const satisfies Record<string, readonly string[]>;

export function rankOf(what: keyof typeof ORDER, id: string): number {
  const order: readonly string[] = ORDER[what];
  const rank = order.indexOf(id);
  return rank < 0 ? order.length : rank;
}

const QUALITY: Record<FixQuality, number> = {
  rtk: 0,
  'rtk-float': 1,
  precise: 2,
  differential: 3,
  autonomous: 4,
  estimated: 5,
};
const WORSE_QUALITY = 10;

/** Fewer satellites than this fix no position in three dimensions. */
export const FEWEST_SATELLITES = 4;

/** Rank of a position: quality first, then the sentence: one that tells satellites and HDOP, then RMC, then one that should but does not, then GLL. */
export function positionRank(id: string, { quality, satellites, hdop }: PositionObservation): number {
  const sentence = id === 'RMC' ? 1 : id === 'GLL' ? 3 : isExplained(satellites, hdop) ? 0 : 2;
  return WORSE_QUALITY * QUALITY[quality] + sentence;
}

const isExplained = (satellites: number | undefined, hdop: number | undefined): boolean =>
  hdop !== undefined && satellites !== undefined && satellites >= FEWEST_SATELLITES;
