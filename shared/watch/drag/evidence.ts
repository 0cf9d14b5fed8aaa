import { degrees, direction } from '../../quantities/angle.ts';
import { brokenLoose, dragged } from '../words.ts';
import { strongest } from './bank.ts';
import { type AnchorFilter, expected, moved } from './filter.ts';
import { BLOCK, EVIDENCE } from './model.ts';
import type { Reading } from './reading.ts';
import type { DragState } from './state.ts';

/** How far the anchor has moved the way the cable pulls, by one filter: metres and sigma. */
export function movedAlongPull(drag: DragState, filter: AnchorFilter): { value: number; sigma: number } {
  const { east, north, varEast, varNorth, covariance } = moved(filter);
  const { east: e, north: n } = drag.pull ?? { east: 0, north: 1 };
  const variance = varEast * e * e + varNorth * n * n + 2 * covariance * e * n;
  return { value: east * e + north * n, sigma: Math.sqrt(Math.max(variance, 1e-6)) };
}

/** Looks at the fix that has just been followed: the slow path asks the bank, the fast path the last seconds themselves. */
export function weighEvidence(drag: DragState, reading: Reading): void {
  const { alarm, caution } = EVIDENCE;
  const best = strongest(drag.bank);
  const value = best ? movedAlongPull(drag, best.filter).value : 0;
  const log = best?.log ?? 0;
  const beyond = (step: { metres: number; log: number }) => value > step.metres && log > step.log;
  const farther = outside(drag, reading);

  if (drag.level !== 'alarm') {
    if (farther !== undefined) raise(drag, 'alarm', reading, looseWords(drag, reading, farther));
    else if (best && beyond(alarm)) raise(drag, 'alarm', reading, slowWords(drag, reading));
    else if (best && drag.level === undefined && beyond(caution))
      raise(drag, 'caution', reading, slowWords(drag, reading));
  } else if (log < alarm.ends && !drag.outside) {
    drag.level = 'caution';
    drag.why = slowWords(drag, reading);
  }
  if (drag.level === 'caution' && log < caution.ends) {
    delete drag.level;
    delete drag.why;
    delete drag.since;
  }
}

function raise(drag: DragState, level: 'caution' | 'alarm', reading: Reading, why: string): void {
  drag.level = level;
  drag.since = reading.at;
  drag.why = why;
}

/** Metres farther out than a held anchor allows, once that has lasted long enough while she moves outwards; else undefined. */
function outside(drag: DragState, reading: Reading): number | undefined {
  if (!drag.pull) return undefined;
  const { fast } = EVIDENCE;
  const held = expected(drag.bank.holds, reading);
  const sigma = Math.sqrt(
    (held.variance + BLOCK.sigma ** 2 + (BLOCK.gust * reading.gain) ** 2) * drag.bank.scatter,
  );
  const farther = reading.excess - held.excess;
  if (farther < Math.max(fast.metres, fast.sigmas * sigma)) {
    delete drag.outside;
    return undefined;
  }
  drag.outside ??= { since: reading.at, fixes: 0 };
  drag.outside.fixes++;
  const confirmed =
    reading.outwards === undefined ? farther > fast.unconfirmed * fast.metres : reading.outwards > fast.speed;
  const lasted = reading.at - drag.outside.since >= fast.seconds && drag.outside.fixes >= fast.fixes;
  return lasted && confirmed ? farther : undefined;
}

function looseWords(drag: DragState, reading: Reading, farther: number): string {
  return brokenLoose(farther, reading.at - drag.outside!.since, reading.outwards, reading.distance);
}

function slowWords(drag: DragState, reading: Reading): string {
  const best = strongest(drag.bank)!;
  const { east, north } = moved(best.filter);
  return dragged({
    ...movedAlongPull(drag, best.filter),
    towards: direction(degrees(Math.atan2(east, north))),
    minutes: (reading.at - best.since) / 60,
    distance: reading.distance,
    reach: reading.reach,
    wind: drag.wind?.speed,
  });
}
