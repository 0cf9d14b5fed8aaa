import type { AlertState, Finding, Priority } from '../../../shared/alerts/alert.ts';
import {
  type AlertsState,
  acknowledge,
  createAlerts,
  silence,
  update,
} from '../../../shared/alerts/alerts.ts';

export const T = 1_700_000_000;

export const finding = (priority: Priority, more: Partial<Finding> = {}): Finding => ({
  kind: 'wind-speed',
  priority,
  text: `a ${priority}`,
  ...more,
});

/** The one alert of a state that holds one at most, as [priority, state], or 'normal' when it is gone. */
export function standing(state: AlertsState): string {
  if (state.held.length === 0) return 'normal';
  if (state.held.length > 1) throw new Error('more than one alert');
  const { priority, state: stands } = state.held[0]!.alert;
  return `${priority} ${stands}`;
}

/** An alert brought into a state at T by way of the public functions, with its id. */
export function brought(to: AlertState, priority: 'alarm' | 'warning' = 'alarm') {
  const state = createAlerts();
  const found = [finding(priority)];
  update(state, found, T);
  const id = state.held[0]!.alert.id;
  if (to === 'active-silenced') silence(state, id, 'Ann', T);
  if (to === 'active-acknowledged') acknowledge(state, id, 'Ann', T);
  if (to === 'rectified-unacknowledged') update(state, [], T);
  if (to === 'normal') {
    update(state, [], T);
    acknowledge(state, id, 'Ann', T);
  }
  return { state, id, found };
}
