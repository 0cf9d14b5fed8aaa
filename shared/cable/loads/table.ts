import { FOOT } from '../../quantities/units.ts';
import type { Boat } from '../../settings.ts';

const LBF = 4.4482216;

/**
 * ABYC H-40 Table 1, design loads in lbf, as republished (waterwayguide.com, working column; storm = 2 × working from 30 ft up).
 * Copies disagree in the storm column below 30 ft, so only the working loads are kept. Beams, ft: from memory.
 */
const WORKING: readonly { length: number; beam: { sail: number; power: number }; lbf: number }[] = [
  { length: 20, beam: { sail: 7, power: 8 }, lbf: 360 },
  { length: 25, beam: { sail: 8, power: 9 }, lbf: 490 },
  { length: 30, beam: { sail: 9, power: 11 }, lbf: 700 },
  { length: 35, beam: { sail: 10, power: 13 }, lbf: 900 },
  { length: 40, beam: { sail: 11, power: 14 }, lbf: 1200 },
  { length: 50, beam: { sail: 13, power: 16 }, lbf: 1600 },
  { length: 60, beam: { sail: 15, power: 18 }, lbf: 2000 },
];
/** Multihulls: up to half as much again (waterwayguide.com); their beam is not what the table means. */
const MULTIHULL = 1.5;
/** Wind of the working column: 30 kn. */
export const TABLE_WIND = (30 * 1852) / 3600;

/**
 * Load (N) that ABYC H-40 tells to design for at 30 kn, for length over all or beam, whichever gives more; undefined beyond
 * the table. A check beside a computed load, never part of it: it stands for a boat that sheers and snatches.
 */
export function tableLoad(
  { hull, length, beam }: Pick<Boat, 'hull' | 'length' | 'beam'>,
  kind: 'sail' | 'power' = 'sail',
): number | undefined {
  const mono = hull === 'monohull';
  const row = WORKING.find(
    (each) => length <= each.length * FOOT + 0.005 && (!mono || beam <= each.beam[kind] * FOOT + 0.005),
  );
  return row && row.lbf * LBF * (mono ? 1 : MULTIHULL);
}
