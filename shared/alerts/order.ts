import type { Alert, AlertKind, AlertState, Priority } from './alert.ts';

/** Bigger is more urgent (MSC.302(87) §5; emergency alarm has no use here). */
const URGENCY: Record<Priority, number> = { caution: 0, warning: 1, alarm: 2 };

const STATE_ORDER: Record<AlertState, number> = {
  'active-unacknowledged': 0,
  'active-silenced': 1,
  'rectified-unacknowledged': 2,
  'active-acknowledged': 3,
  normal: 4,
};

/** Positive when priority `a` is more urgent than `b`. */
export const comparePriority = (a: Priority, b: Priority): number => URGENCY[a] - URGENCY[b];

/** Of alerts of one priority these come first, since the boat herself moves; and what blinds the watch after them. */
const GRAVEST: readonly AlertKind[] = [
  'drag',
  'adrift',
  'outside-circle',
  'outside-sector',
  'shoal',
  'vessel-near',
  'position-lost',
];
const gravity = (kind: AlertKind): number => {
  const place = GRAVEST.indexOf(kind);
  return place < 0 ? GRAVEST.length : place;
};

/**
 * Order for people: most urgent priority first, within it what nobody has acknowledged first, within that what moves the boat, then
 * the newest.
 */
export function compareAlerts(a: Alert, b: Alert): number {
  return (
    comparePriority(b.priority, a.priority) ||
    STATE_ORDER[a.state] - STATE_ORDER[b.state] ||
    gravity(a.kind) - gravity(b.kind) ||
    b.stateSince - a.stateSince ||
    (a.id < b.id ? -1 : 1)
  );
}
