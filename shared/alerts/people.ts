import type { AlertEvent, Problem } from '../events.ts';
import type { Alert } from './alert.ts';
import type { AlertsState } from './alerts.ts';
import { enter, eventOf } from './held.ts';
import { TRANSITIONS } from './transitions.ts';

/** What became of an order given by a person. */
export type Done = { ok: true; events: AlertEvent[] } | { ok: false; problem: Problem; why: string };

/** `by` takes note of alert `id` at `at` (UNIX seconds): its sound ends; a rectified one becomes normal and leaves the list. */
export const acknowledge = (state: AlertsState, id: string, by: string, at: number): Done =>
  act(state, 'acknowledge', id, by, at);

/** `by` silences alert `id` for `TIMINGS.silence` seconds; it stays unacknowledged. */
export const silence = (state: AlertsState, id: string, by: string, at: number): Done =>
  act(state, 'silence', id, by, at);

function act(state: AlertsState, order: 'acknowledge' | 'silence', id: string, by: string, at: number): Done {
  const index = state.held.findIndex(({ alert }) => alert.id === id);
  const held = state.held[index];
  if (!held) return { ok: false, problem: 'unknown', why: `There is no alert "${id}" now.` };
  const { alert } = held;
  const next = TRANSITIONS[order][alert.state];
  if (!next) return { ok: false, problem: 'refused', why: whyNot(alert, order) };
  enter(held, next, at);
  if (next === 'active-acknowledged') {
    alert.acknowledgedBy = by;
    alert.acknowledgedAt = at;
  }
  if (next === 'normal') state.held.splice(index, 1);
  return { ok: true, events: [eventOf(alert, at, by)] };
}

function whyNot(alert: Alert, order: 'acknowledge' | 'silence'): string {
  if (alert.state === 'active-silenced')
    return 'It is silenced already; it sounds again unless acknowledged.';
  if (alert.state === 'rectified-unacknowledged')
    return 'It makes no sound: its cause has ended. Acknowledge it.';
  if (alert.acknowledgedBy !== undefined) return `It was acknowledged already, by ${alert.acknowledgedBy}.`;
  return order === 'silence'
    ? 'A caution makes no sound.'
    : 'A caution needs no acknowledgement; it goes by itself.';
}
