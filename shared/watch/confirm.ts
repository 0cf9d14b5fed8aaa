import type { Rule } from './limits.ts';

/** Memory of one condition: whether it holds, and the run of readings that may change that. Plain data. */
interface Confirm {
  holds: boolean;
  /** The limit it was judged by last. */
  limit?: number;
  /** Start of the present run towards raising or ending, and its readings. */
  since?: number;
  readings: number;
  /** When there was anything to judge last, and the time stamp of that reading. */
  seen?: number;
  reading?: number;
}

export type Confirms = Partial<Record<string, Confirm>>;

/** `between`: not beyond the limit, yet not far enough within it to end anything. */
export type Side = 'beyond' | 'between' | 'within';

/** A value against a limit that it should not exceed. */
export const over = (value: number, limit: number, hysteresis: number): Side =>
  value > limit ? 'beyond' : value <= limit - hysteresis ? 'within' : 'between';

/** A value against a limit that it should not fall below. */
export const under = (value: number, limit: number, hysteresis: number): Side =>
  value < limit ? 'beyond' : value >= limit + hysteresis ? 'within' : 'between';

/** UNIX times in a double resolve to 0.2 µs: differences that should be equal may differ by as much. */
const SLACK = 1e-3;

export interface Evidence {
  at: number;
  limit: number;
  /** Which side the value is on; undefined when it isn't known now, which changes nothing. */
  side: Side | undefined;
  /** Time stamp of the reading: another one is another reading. */
  reading: number | undefined;
}

/**
 * Does the condition `key` hold, by `rule`? Call it at every reading and every whole second. A rule that asks for readings changes
 * its mind at a reading only, never because an old one gets older. When the limit has been changed and
 * the value is not beyond the new one, the condition ends at once, since somebody has decided so.
 */
export function confirm(confirms: Confirms, key: string, rule: Rule, evidence: Evidence): boolean {
  const { at, limit, side, reading } = evidence;
  let c = confirms[key];
  if (c === undefined) {
    c = { holds: false, readings: 0 };
    confirms[key] = c;
  }
  if (side === undefined) return c.holds;
  if (c.limit !== limit) {
    if (side !== 'beyond') c.holds = false;
    endRun(c);
    c.limit = limit;
  }
  if (c.seen !== undefined && at - c.seen > rule.gap) endRun(c);
  c.seen = at;
  const fresh = reading !== undefined && reading !== c.reading;
  if (fresh) c.reading = reading;
  if (side !== (c.holds ? 'within' : 'beyond')) {
    endRun(c);
    return c.holds;
  }
  c.since ??= at;
  if (fresh) c.readings++;
  const need = c.holds ? rule.clear : rule.raise;
  const enough = need.readings === 0 || (fresh && c.readings >= need.readings);
  if (enough && at - c.since >= need.after - SLACK) {
    c.holds = !c.holds;
    endRun(c);
  }
  return c.holds;
}

function endRun(c: Confirm): void {
  if (c.since !== undefined) delete c.since;
  c.readings = 0;
}
