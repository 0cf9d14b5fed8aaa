import type { AlertEvent } from '../events.ts';
import type { Alert, AlertState, Finding, Priority } from './alert.ts';
import { isActive, isUnacknowledged } from './transitions.ts';

/** An alert with what only its life cycle needs to know. */
export interface Held {
  alert: Alert;
  /** Priority of the latest finding; the alert's own may be higher, see `update`. */
  found: Priority;
  /**
   * How long it has held without an answer: seconds in earlier spells, and since when in this one. Spells add up, so a warning
   * that comes and goes while nobody hears it still becomes an alarm, yet not at once when it returns hours later.
   */
  unanswered: { before: number; since?: number };
}

/** Puts the alert into `state` (the same again when it is raised anew) and keeps the times that depend on it. */
export function enter(held: Held, state: AlertState, at: number): void {
  const { alert, unanswered } = held;
  if (alert.state !== state) {
    alert.state = state;
    alert.stateSince = at;
  }
  if (isUnacknowledged(state)) {
    delete alert.acknowledgedBy;
    delete alert.acknowledgedAt;
    if (isActive(state)) {
      unanswered.since ??= at;
    } else if (unanswered.since !== undefined) {
      unanswered.before += at - unanswered.since;
      delete unanswered.since;
    }
  } else {
    held.unanswered = { before: 0 };
  }
}

/** Takes over what the finding measured. */
export function refresh({ alert }: Held, { text, value, limit }: Finding): void {
  alert.text = text;
  if (value === undefined) delete alert.value;
  else alert.value = value;
  if (limit === undefined) delete alert.limit;
  else alert.limit = limit;
}

/** The alert as an event at `t`; `by`: who caused it. */
export function eventOf(alert: Alert, t: number, by?: string): AlertEvent {
  const { id, kind, priority, state, text, value, limit } = alert;
  return {
    event: 'alert',
    t,
    id,
    kind,
    priority,
    state,
    text,
    ...(value === undefined ? {} : { value }),
    ...(limit === undefined ? {} : { limit }),
    ...(by === undefined ? {} : { by }),
  };
}
