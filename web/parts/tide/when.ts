import { clockOffset } from '../../live.ts';

const DAY = 86_400;

/** "4:12", "04.12" or "0412" as minutes after midnight; undefined: no time of day. */
export function minutesTyped(text: string): number | undefined {
  const match = /^\s*(\d{1,2})[:.h ]?(\d{2})\s*$/.exec(text);
  if (!match) return undefined;
  const [hours, minutes] = [Number(match[1]), Number(match[2])];
  return hours < 24 && minutes < 60 ? hours * 60 + minutes : undefined;
}

/** That time of ship's day `day` (0 today, −1 yesterday) as UNIX seconds on the boat's timeline; `now` in the same. */
export function momentOf(minutes: number, day: number, now: number): number {
  const midnight = new Date((now + clockOffset.value) * 1000);
  midnight.setHours(0, 0, 0, 0);
  midnight.setDate(midnight.getDate() + day);
  midnight.setMinutes(minutes);
  return midnight.getTime() / 1000 - clockOffset.value;
}

/** Times that follow one another: each is after the one before, be it on the next day. */
export function inOrder(minutes: readonly number[], day: number, now: number): number[] {
  const times: number[] = [];
  for (const each of minutes) {
    let at = momentOf(each, day, now);
    const before = times.at(-1);
    while (before !== undefined && at <= before) at += DAY;
    times.push(at);
  }
  return times;
}
