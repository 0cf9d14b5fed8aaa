import type { Priority } from '../alerts/alert.ts';
import type { AlertEvent } from '../events.ts';
import type { NightAlert, NightSummary } from './night.ts';

const RANK: Record<Priority, number> = { caution: 0, warning: 1, alarm: 2 };

/** Enters a change of an alert's state. `priority` of the alert is the highest that it has had. */
export function enterAlert(alerts: NightAlert[], event: AlertEvent): void {
  const { id, kind, priority, state, text, value, limit, t, by } = event;
  let alert = alerts.find((held) => held.id === id);
  if (!alert) {
    alert = { id, kind, priority, text, from: t, changes: [] };
    alerts.push(alert);
  }
  if (RANK[priority] > RANK[alert.priority]) alert.priority = priority;
  alert.text = text;
  if (value !== undefined) alert.value = value;
  if (limit !== undefined) alert.limit = limit;
  alert.changes.push({ at: t, state, priority, text, ...(by === undefined ? {} : { by }) });
  if (state === 'normal') alert.to = t;
  else delete alert.to;
  if (by !== undefined && state === 'active-acknowledged') {
    alert.acknowledgedBy = by;
    alert.acknowledgedAt = t;
  }
}

export function countAlerts(alerts: readonly NightAlert[]): NightSummary['alerts'] {
  const counts: NightSummary['alerts'] = { alarms: 0, warnings: 0, cautions: 0, kinds: {} };
  for (const { kind, priority } of alerts) {
    counts[`${priority}s`]++;
    counts.kinds[kind] = (counts.kinds[kind] ?? 0) + 1;
  }
  return counts;
}
