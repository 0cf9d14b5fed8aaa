import { checksum, checksumBefore } from '../../shared/sentences/checksum.ts';

/** Tried in this order: NMEA 0183 (IEC 61162-1), its high-speed form (IEC 61162-2), then what multiplexers and receivers are set to. */
export const RATES: readonly number[] = [4800, 38_400, 9600, 57_600, 115_200];

/** So many sentences with a right checksum, and most of them right, settle it before the time is over. */
const ENOUGH = 4;

/** True when the line ends with a sentence whose checksum is right. */
export function hasRightChecksum(line: string): boolean {
  const text = line.trimEnd();
  const start = Math.max(text.lastIndexOf('$'), text.lastIndexOf('!'));
  const sent = checksumBefore(text, text.length);
  return start >= 0 && sent >= 0 && checksum(text, start + 1, text.length - 3) === sent;
}

/**
 * Sets the rate and hands every line to `judge` until its time is over or `judge` has heard enough and answers true. Resolves to
 * false when the port is gone.
 */
export type Probe = (rate: number, judge: (line: string) => boolean) => Promise<boolean>;

/**
 * The baud rate at which most sentences have a right checksum, each listened to in turn beginning with `first`; undefined when
 * none was heard at any rate, or the port is gone.
 */
export async function findRate(probe: Probe, first?: number): Promise<number | undefined> {
  const order = first === undefined ? RATES : [first, ...RATES.filter((rate) => rate !== first)];
  let best: number | undefined;
  let most = 0;
  for (const rate of order) {
    let right = 0;
    let wrong = 0;
    const isSettled = () => right >= ENOUGH && right > wrong;
    const isThere = await probe(rate, (line) => {
      if (hasRightChecksum(line)) right++;
      else wrong++;
      return isSettled();
    });
    if (!isThere) return undefined;
    if (isSettled()) return rate;
    if (right > most) {
      most = right;
      best = rate;
    }
  }
  return best;
}
