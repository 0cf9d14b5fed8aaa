/** A high or low water: UNIX seconds, metres above chart datum. */
export interface TideTurn {
  at: number;
  height: number;
}

/**
 * Height between a high and a low water, in either order: h = (h₁+h₂)/2 + (h₁−h₂)/2·cos(π(t−t₁)/(t₂−t₁)) (basis of NOAA tide
 * table 3 and CHS table 5). Undefined outside them: the curve says nothing there.
 */
export function heightBetween(before: TideTurn, after: TideTurn, at: number): number | undefined {
  const share = shareOf(before, after, at);
  if (share === undefined) return undefined;
  const middle = (before.height + after.height) / 2;
  return middle + ((before.height - after.height) / 2) * Math.cos(Math.PI * share);
}

/** Share of the range after each sixth of the time, rule of twelfths: 1-2-3-3-2-1. */
const TWELFTHS = [0, 1 / 12, 3 / 12, 6 / 12, 9 / 12, 11 / 12, 1];

/** The same by the rule of twelfths, straight between its sixths: at most 2.6 % of the range from the cosine at them. */
export function heightByTwelfths(before: TideTurn, after: TideTurn, at: number): number | undefined {
  const share = shareOf(before, after, at);
  if (share === undefined) return undefined;
  const sixth = Math.min(5, Math.floor(share * 6));
  const low = TWELFTHS[sixth]!;
  const high = TWELFTHS[sixth + 1]!;
  return before.height + (after.height - before.height) * (low + (high - low) * (share * 6 - sixth));
}

/** Height (m above datum) by a tide table, with the turns on either side of the moment; or why it can't be told. */
export type TableHeight =
  | { state: 'known'; height: number; before: TideTurn; after: TideTurn }
  | { state: 'unknown'; reason: 'no-turns' | 'before-table' | 'after-table' };

/** Height by the high and low waters of a tide table, in any order. */
export function heightByTable(turns: readonly TideTurn[], at: number): TableHeight {
  const sane = turns.filter(({ at: when, height }) => Number.isFinite(when) && Number.isFinite(height));
  const sorted = sane.sort((a, b) => a.at - b.at);
  if (sorted.length < 2 || !Number.isFinite(at)) return { state: 'unknown', reason: 'no-turns' };
  if (at < sorted[0]!.at) return { state: 'unknown', reason: 'before-table' };
  for (let index = 1; index < sorted.length; index++) {
    const before = sorted[index - 1]!;
    const after = sorted[index]!;
    const height = heightBetween(before, after, at);
    if (height !== undefined) return { state: 'known', height, before, after };
  }
  return { state: 'unknown', reason: 'after-table' };
}

function shareOf(before: TideTurn, after: TideTurn, at: number): number | undefined {
  const share = (at - before.at) / (after.at - before.at);
  return share >= 0 && share <= 1 ? share : undefined;
}
