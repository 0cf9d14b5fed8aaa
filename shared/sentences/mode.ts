import type { Fields } from './fields.ts';
import type { Verdict } from './fix.ts';

/** Mode letters of RMC, GLL, GNS and VTG, the best first (gpsd NMEA.adoc 2.23; that F, P and R are valid: from memory). */
const MODES: [letter: string, verdict: Verdict][] = [
  ['R', 'rtk'],
  ['F', 'rtk-float'],
  ['P', 'precise'],
  ['D', 'differential'],
  ['A', 'autonomous'],
  ['E', 'estimated'],
  ['S', 'simulated'],
  ['M', 'manual'],
  ['N', 'no-fix'],
];
const LETTERS = MODES.map(([letter]) => letter).join('');
const VERDICTS = MODES.map(([, verdict]) => verdict);

/** GGA's number for the same (gpsd NMEA.adoc 2.23). */
const QUALITIES: Verdict[] = [
  'no-fix',
  'autonomous',
  'differential',
  'precise',
  'rtk',
  'rtk-float',
  'estimated',
  'manual',
  'simulated',
];

/** What the quality number of GGA in field `i` says. Blank vouches for nothing. */
export function verdictOfQuality(fields: Fields, i: number): Verdict {
  const quality = fields.whole(i, 0, QUALITIES.length - 1, 'fix quality');
  return quality === undefined ? 'blank' : QUALITIES[quality]!;
}

/** What the mode letter in field `i` says; blank, or left out by units older than 2001, it adds nothing to the status beside it. */
export function verdictOfMode(fields: Fields, i: number): Verdict {
  const letter = fields.letter(i, LETTERS, 'mode');
  return letter === 0 ? 'autonomous' : VERDICTS[LETTERS.indexOf(String.fromCharCode(letter))]!;
}

/** What the status A or V in field `status` and the mode letter in field `mode` say together: only A vouches for a fix. */
export function verdictOfStatus(fields: Fields, status: number, mode: number): Verdict {
  const letter = fields.letter(status, 'AV', 'status');
  const verdict = verdictOfMode(fields, mode);
  if (letter === A) return verdict;
  if (verdict === 'simulated' || verdict === 'manual') return verdict;
  return letter === 0 ? 'blank' : 'no-fix';
}
const A = 'A'.charCodeAt(0);

/** What the mode letters of GNS in field `i` say, one for each satellite system: the fix is as good as the best of them. */
export function verdictOfModes(fields: Fields, i: number): Verdict {
  const letters = fields.raw(i);
  let best = LETTERS.length;
  for (const letter of letters) {
    const rank = LETTERS.indexOf(letter);
    if (rank < 0) fields.fail(`mode "${letters}" has a letter that is not one of ${LETTERS}`);
    else if (rank < best) best = rank;
  }
  return VERDICTS[best] ?? 'blank';
}

/** True when there is a fix of satellites behind the sentence: neither none nor one that is simulated, typed in or reckoned. */
export const isMeasured = (verdict: Verdict): boolean =>
  verdict !== 'estimated' &&
  verdict !== 'simulated' &&
  verdict !== 'manual' &&
  verdict !== 'no-fix' &&
  verdict !== 'blank';
