import type { Alert } from '../../shared/alerts/alert.ts';
import { comparePriority } from '../../shared/alerts/order.ts';
import type { OutputConfig } from './outputs.ts';

/**
 * Since when each alert is without an answer, by its id. An alert that comes and goes while nobody answers keeps its time, so it
 * cannot put the horn off for ever; one that has become more urgent begins anew, since that has only just been told.
 */
export type Unanswered = Readonly<Record<string, { priority: Alert['priority']; since: number }>>;

export interface Wanted {
  /** Alerts that this output has to tell, most urgent first. */
  tell: Alert[];
  /** Those of them that sound: unacknowledged, not silenced, their cause still there. */
  sounding: Alert[];
}

export interface Escalation {
  unanswered: Unanswered;
  /** By the id of the output. */
  wanted: Readonly<Record<string, Wanted>>;
}

type Rule = Pick<OutputConfig, 'id' | 'after' | 'atOnceWithoutPhone'>;

/**
 * Which output has to tell which alert at `now` (UNIX seconds on the engine's timeline). `alerts`: all that are not normal, in
 * the order for people; `phoneWakes`: an armed phone would wake somebody now; `before`: what the last call returned.
 */
export function escalate(
  before: Unanswered,
  alerts: readonly Alert[],
  now: number,
  phoneWakes: boolean,
  rules: readonly Rule[],
): Escalation {
  const unanswered: Record<string, Unanswered[string]> = {};
  for (const alert of alerts) {
    if (!waits(alert)) continue;
    const known = before[alert.id];
    const isWorse = known !== undefined && comparePriority(alert.priority, known.priority) > 0;
    // A warning that became an alarm because nobody answered has been told for long enough.
    const since = known === undefined ? alert.stateSince : isWorse && !alert.escalated ? now : known.since;
    unanswered[alert.id] = { priority: alert.priority, since: Math.min(since, now) };
  }

  const wanted: Record<string, Wanted> = {};
  for (const rule of rules) {
    const tell = alerts.filter((alert) => {
      const after = rule.after[alert.priority];
      if (after === undefined) return false;
      if (after === 0) return true;
      const waiting = unanswered[alert.id];
      if (!waiting) return false;
      if (alert.priority === 'alarm' && rule.atOnceWithoutPhone && !phoneWakes) return true;
      return now - waiting.since >= after;
    });
    wanted[rule.id] = { tell, sounding: tell.filter(sounds) };
  }
  return { unanswered, wanted };
}

/** Nobody has answered yet. A caution wants no answer and waits only for its time. */
const waits = ({ priority, state }: Alert): boolean =>
  priority === 'caution' || state !== 'active-acknowledged';

const sounds = ({ priority, state }: Alert): boolean =>
  priority !== 'caution' && state === 'active-unacknowledged';
