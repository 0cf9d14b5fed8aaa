import type { Alert, AlertKind } from '../../../shared/alerts/alert.ts';
import { joined, length, speed } from '../../format.ts';
import { words } from '../../words.ts';

export const needsAnswer = (alert: Alert): boolean =>
  alert.priority !== 'caution' && alert.state !== 'active-acknowledged' && alert.state !== 'normal';

/** What the alert is about; faults of hawse itself are told by what has failed. */
export const titleOf = ({ kind, subject }: Alert): string =>
  (subject !== undefined && words.alerts.subjects[`${kind} ${subject}`]) || words.alerts.kinds[kind];

const PRIORITY = { alarm: 0, warning: 10, caution: 20 };
const STATE = {
  'active-unacknowledged': 0,
  'active-silenced': 1,
  'rectified-unacknowledged': 2,
  'active-acknowledged': 3,
  normal: 4,
};

/** What needs an answer first, then alarms before warnings before cautions; within that in the boat's own order. */
export function byUrgency(alerts: readonly Alert[]): Alert[] {
  const rank = (alert: Alert) =>
    (needsAnswer(alert) ? 0 : 100) + PRIORITY[alert.priority] + STATE[alert.state];
  return alerts.filter((alert) => alert.state !== 'normal').sort((a, b) => rank(a) - rank(b));
}

type Measure = (value: number) => string;
const metres: Measure = (value) => joined(length(value, true));
const angle: Measure = (value) => `${Math.round(value)}°`;
const seconds: Measure = (value) => `${Math.round(value)} s`;

/** In what an alert's value and limit are measured; kinds that are not here carry no figures of use to people. */
const MEASURE: Partial<Record<AlertKind, Measure>> = {
  drag: metres,
  'outside-circle': metres,
  'outside-sector': metres,
  shoal: metres,
  deep: metres,
  'low-water': metres,
  'wind-speed': (value) => joined(speed(value)),
  'wind-shift': angle,
  'vessel-near': metres,
  'lead-foul': angle,
  'position-lost': seconds,
  'heading-lost': seconds,
  'wind-lost': seconds,
  'depth-lost': seconds,
};

/** Measured value and limit in this screen's units. */
export function measured({ kind, value, limit }: Alert): { value?: string; limit?: string } {
  const say = MEASURE[kind];
  if (!say) return {};
  return {
    ...(value !== undefined && { value: say(value) }),
    ...(limit !== undefined && { limit: say(limit) }),
  };
}
