import type { NightAlert } from '../../../shared/logbook/night.ts';

import { loudAt } from './loud.ts';

/** Alerts of two runs of one night beside each other. Pure. */

export interface Pair {
  was?: NightAlert;
  would?: NightAlert;
}

const loud = (alerts: readonly NightAlert[]): NightAlert[] =>
  alerts.filter(({ priority }) => priority !== 'caution').sort((a, b) => loudAt(a) - loudAt(b));

/** The first of a kind belongs to the first of that kind, and so on; those that only one run has stand alone. By time. */
export function pairs(was: readonly NightAlert[], would: readonly NightAlert[]): Pair[] {
  const left = loud(would);
  const found: Pair[] = loud(was).map((alert) => {
    const index = left.findIndex(({ kind }) => kind === alert.kind);
    const [other] = index < 0 ? [] : left.splice(index, 1);
    return { was: alert, ...(other ? { would: other } : {}) };
  });
  const time = ({ was: a, would: b }: Pair) =>
    Math.min(a ? loudAt(a) : Number.POSITIVE_INFINITY, b ? loudAt(b) : Number.POSITIVE_INFINITY);
  return [...found, ...left.map((alert) => ({ would: alert }))].sort((a, b) => time(a) - time(b));
}

/** Whether two runs raised the same alerts at the same times. */
export function sameAlerts(a: readonly NightAlert[], b: readonly NightAlert[]): boolean {
  const gist = (alerts: readonly NightAlert[]) =>
    loud(alerts)
      .map((alert) => `${alert.kind} ${loudAt(alert).toFixed(3)}`)
      .join();
  return gist(a) === gist(b);
}
