import { type AnchorFilter, copyOf, correct, expected, type FilterModel, predict } from './filter.ts';
import { BANK, BLOCK } from './model.ts';
import type { Reading } from './reading.ts';

/**
 * Two stories about the same readings: that the anchor holds, and that it has dragged since some moment. Each is a filter; the
 * suspicions are begun at many moments, as copies of the one that holds, and compared with it by the likelihood of what came since
 * (generalised likelihood ratio for a change at an unknown time: Willsky & Jones 1976; Basseville & Nikiforov 1993, ch. 7, from
 * memory). So an anchor is held for held until the readings say otherwise, and a long quiet night does not wear that down.
 */
export interface Bank {
  holds: AnchorFilter;
  suspicions: Suspicion[];
  /** Mean square of the innovations against their variance: how this receiver on this boat scatters. */
  scatter: number;
}

export interface Suspicion {
  filter: AnchorFilter;
  since: number;
  /** Natural logarithm of the likelihood of "it drags" over "it holds", of all readings since. */
  log: number;
  /** Index of the age at which it is mature. */
  rung: number;
}

export const createBank = (holds: AnchorFilter): Bank => ({ holds, suspicions: [], scatter: 1 });

/** All filters of a bank: what is true of receiver and cable is true for each. */
export const filtersOf = (bank: Bank): AnchorFilter[] => [
  bank.holds,
  ...bank.suspicions.map(({ filter }) => filter),
];

/** Takes in the reading of one block. */
export function judge(bank: Bank, reading: Reading, model: FilterModel): void {
  predict(bank.holds, reading.at, model, 0);
  const held = take(bank.holds, reading, bank.scatter, BANK.gate);
  for (const suspicion of bank.suspicions) {
    predict(suspicion.filter, reading.at, model, BANK.wander);
    suspicion.log += take(suspicion.filter, reading, bank.scatter).log - held.log;
  }
  const { least, most, blocks } = BANK.scatter;
  if (held.square < BANK.gate ** 2) {
    bank.scatter += (held.square - bank.scatter) / blocks;
    bank.scatter = Math.min(most, Math.max(least, bank.scatter));
  }
  renew(bank, reading.at);
}

/**
 * The cable forbids lying farther, not lying nearer: a reading that falls short says little, the less the shorter it falls.
 * `gate`: beyond so many sigmas the reading is judged but not learnt.
 */
function take(
  filter: AnchorFilter,
  reading: Reading,
  scatter: number,
  gate = Number.POSITIVE_INFINITY,
): { log: number; square: number } {
  const before = expected(filter, reading);
  const surprise = reading.excess - before.excess;
  const noise = BLOCK.sigma ** 2 + (BLOCK.gust * reading.gain) ** 2 + Math.min(0, surprise) ** 2;
  const variance = before.variance + noise;
  const square = surprise ** 2 / variance;
  if (square < gate ** 2 || surprise < 0) correct(filter, reading, reading.excess, noise);
  return { log: -0.5 * (square / scatter + Math.log(variance)), square };
}

/** Every rung of the ladder keeps one suspicion that is mature and one that grows; a matured one takes the place of the one before. */
function renew(bank: Bank, at: number): void {
  for (const [rung, age] of BANK.ages.entries()) {
    const own = bank.suspicions.filter((suspicion) => suspicion.rung === rung);
    const youngest = own.at(-1);
    if (youngest && at - youngest.since < age) continue;
    bank.suspicions = bank.suspicions.filter(
      (suspicion) => suspicion.rung !== rung || suspicion === youngest,
    );
    bank.suspicions.push({ filter: copyOf(bank.holds), since: at, log: 0, rung });
  }
}

/** The suspicion with most to say for it, if any. */
export function strongest(bank: Bank): Suspicion | undefined {
  let best: Suspicion | undefined;
  for (const suspicion of bank.suspicions) if (!best || suspicion.log > best.log) best = suspicion;
  return best;
}
