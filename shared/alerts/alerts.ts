import type { AlertEvent } from '../events.ts';
import type { Alert, Finding } from './alert.ts';
import { enter, eventOf, type Held, refresh } from './held.ts';
import { compareAlerts, comparePriority } from './order.ts';
import { TIMINGS } from './timings.ts';
import { isUnacknowledged, TRANSITIONS } from './transitions.ts';

export { acknowledge, silence } from './people.ts';
export { TIMINGS } from './timings.ts';

/** Every alert that is not normal, and how many there have been. Plain data. */
export interface AlertsState {
  raised: number;
  held: Held[];
}

export const createAlerts = (): AlertsState => ({ raised: 0, held: [] });

/** Alerts that are not normal, as copies: alarms before warnings before cautions, unacknowledged first, then the newest. */
export const list = (state: AlertsState): Alert[] =>
  state.held.map(({ alert }) => ({ ...alert })).sort(compareAlerts);

/**
 * Takes the complete set of findings that hold at `at` (UNIX seconds) and returns an event for each change of an alert's state
 * or priority. New ones are raised, missing ones rectified, the others get their text, value and limit refreshed without an
 * event. A situation that has become more urgent is raised again, unacknowledged, under its old id: an acknowledgement holds
 * for what was acknowledged, not for something worse. A situation that has become less urgent never sounds: the alert keeps its
 * higher priority until somebody acknowledges it (nobody has seen yet how bad it was), then follows down with an event.
 * Should two findings be of one kind and subject, the more urgent counts.
 */
export function update(state: AlertsState, findings: readonly Finding[], at: number): AlertEvent[] {
  const events: AlertEvent[] = [];
  for (const held of state.held) {
    const finding = mostUrgent(findings, held.alert);
    if (finding) keep(held, finding, at, events);
    else rectify(held, at, events);
  }
  for (const finding of findings) {
    if (!state.held.some(({ alert }) => alike(alert, finding)))
      raise(state, mostUrgent(findings, finding)!, at, events);
  }
  forgetNormal(state);
  return events;
}

/** Time-outs that fall due by `at`: the end of a silence, and the escalation of a warning that nobody acknowledges. */
export function pass(state: AlertsState, at: number): AlertEvent[] {
  const events: AlertEvent[] = [];
  for (const held of state.held) {
    const { alert } = held;
    if (alert.state === 'active-silenced' && at - alert.stateSince >= TIMINGS.silence) {
      enter(held, TRANSITIONS['silence-timeout'][alert.state]!, at);
      events.push(eventOf(alert, at));
    }
    if (alert.priority !== 'warning' || held.unanswered.since === undefined) continue;
    if (held.unanswered.before + at - held.unanswered.since < TIMINGS.escalation) continue;
    alert.priority = 'alarm';
    alert.escalated = true;
    enter(held, 'active-unacknowledged', at);
    events.push(eventOf(alert, at));
  }
  return events;
}

/** An alert that has become normal has left the list. */
function forgetNormal(state: AlertsState): void {
  state.held = state.held.filter(({ alert }) => alert.state !== 'normal');
}

type Situation = Pick<Finding, 'kind' | 'subject'>;
const alike = (a: Situation, b: Situation): boolean => a.kind === b.kind && a.subject === b.subject;

function mostUrgent(findings: readonly Finding[], situation: Situation): Finding | undefined {
  let most: Finding | undefined;
  for (const finding of findings) {
    if (alike(finding, situation) && (!most || comparePriority(finding.priority, most.priority) > 0))
      most = finding;
  }
  return most;
}

function raise(state: AlertsState, finding: Finding, at: number, events: AlertEvent[]): void {
  const { kind, subject, priority, text } = finding;
  const alert: Alert = {
    id: `${kind}.${++state.raised}`,
    kind,
    ...(subject === undefined ? {} : { subject }),
    priority,
    state: 'normal',
    text,
    since: at,
    stateSince: at,
  };
  const held: Held = { alert, found: priority, unanswered: { before: 0 } };
  refresh(held, finding);
  enter(held, priority === 'caution' ? 'active-acknowledged' : TRANSITIONS.raise.normal!, at);
  state.held.push(held);
  events.push(eventOf(alert, at));
}

function keep(held: Held, finding: Finding, at: number, events: AlertEvent[]): void {
  const { alert } = held;
  const { state, priority } = alert;
  const worse = comparePriority(finding.priority, held.found) > 0;
  refresh(held, finding);
  held.found = finding.priority;
  const raisedAgain = TRANSITIONS.raise[state];
  if (worse || raisedAgain) {
    if (comparePriority(finding.priority, priority) >= 0) {
      alert.priority = finding.priority;
      delete alert.escalated;
    }
    enter(held, 'active-unacknowledged', at);
  } else if (!isUnacknowledged(state) && !(alert.escalated && finding.priority === 'warning')) {
    alert.priority = finding.priority;
    delete alert.escalated;
  }
  if (alert.state !== state || alert.priority !== priority) events.push(eventOf(alert, at));
}

function rectify(held: Held, at: number, events: AlertEvent[]): void {
  const next = TRANSITIONS.rectify[held.alert.state];
  if (!next) return;
  enter(held, next, at);
  events.push(eventOf(held.alert, at));
}
