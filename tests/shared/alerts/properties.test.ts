import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { AlertState, Finding } from '../../../shared/alerts/alert.ts';
import {
  type AlertsState,
  acknowledge,
  createAlerts,
  list,
  pass,
  silence,
  update,
} from '../../../shared/alerts/alerts.ts';
import type { AlertEvent } from '../../../shared/events.ts';

const findings: fc.Arbitrary<Finding[]> = fc.uniqueArray(
  fc.record(
    {
      kind: fc.constantFrom('wind-speed' as const, 'vessel-near' as const, 'shoal' as const),
      subject: fc.constantFrom('a', 'b'),
      priority: fc.constantFrom('alarm' as const, 'warning' as const, 'caution' as const),
      text: fc.constantFrom('x', 'y'),
      value: fc.integer(),
      limit: fc.integer(),
    },
    { requiredKeys: ['kind', 'priority', 'text'] },
  ),
  { selector: ({ kind, subject }) => `${kind} ${subject}`, maxLength: 5 },
);
const which = fc.nat({ max: 5 });
const operation = fc.oneof(
  fc.record({ do: fc.constant('update' as const), findings }),
  fc.record({ do: fc.constant('acknowledge' as const), which }),
  fc.record({ do: fc.constant('silence' as const), which }),
  fc.record({ do: fc.constant('pass' as const) }),
);
type Operation = typeof operation extends fc.Arbitrary<infer O> ? O : never;
const sequence = fc.array(fc.tuple(operation, fc.constantFrom(0, 0.25, 1, 30, 100, 300)), { maxLength: 60 });

function act(state: AlertsState, operation: Operation, at: number): AlertEvent[] {
  if (operation.do === 'update') return update(state, operation.findings, at);
  if (operation.do === 'pass') return pass(state, at);
  const id = list(state)[operation.which]?.id ?? 'none';
  const done = (operation.do === 'acknowledge' ? acknowledge : silence)(state, id, 'Ann', at);
  return done.ok ? done.events : [];
}

/** From the state a listener last heard to the one it hears now; raised again within a state only with another priority. */
const LEGAL: Record<AlertState, AlertState[]> = {
  normal: ['active-unacknowledged', 'active-acknowledged'],
  'active-unacknowledged': [
    'active-silenced',
    'active-acknowledged',
    'rectified-unacknowledged',
    'active-unacknowledged',
  ],
  'active-silenced': ['active-unacknowledged', 'active-acknowledged', 'rectified-unacknowledged'],
  'active-acknowledged': ['active-unacknowledged', 'active-acknowledged', 'normal'],
  'rectified-unacknowledged': ['active-unacknowledged', 'normal'],
};

test('any sequence of operations: legal steps, one alert a situation, ids unique, plain data, events tell all', () => {
  fc.assert(
    fc.property(sequence, (steps) => {
      const state = createAlerts();
      const heard = new Map<string, AlertEvent>();
      const over = new Set<string>();
      let at = 1_700_000_000;
      let found: Finding[] = [];
      for (const [operation, wait] of steps) {
        at += wait;
        if (operation.do === 'update') found = operation.findings;
        for (const event of act(state, operation, at)) {
          const before = heard.get(event.id);
          expect(over.has(event.id)).toBe(false);
          expect(LEGAL[before?.state ?? 'normal']).toContain(event.state);
          if (before?.state === event.state) expect(before.priority).not.toBe(event.priority);
          expect(event.t).toBe(at);
          heard.set(event.id, event);
          if (event.state === 'normal') {
            over.add(event.id);
            heard.delete(event.id);
          }
        }
        const alerts = list(state);
        expect(new Set(alerts.map(({ kind, subject }) => `${kind} ${subject}`)).size).toBe(alerts.length);
        expect(new Set(alerts.map(({ id }) => id)).size).toBe(alerts.length);
        expect(JSON.parse(JSON.stringify(state))).toStrictEqual(state);
        // Whoever listens to the events only knows the same alerts in the same states as whoever reads the list.
        expect(alerts.map(({ id, state, priority }) => `${id} ${state} ${priority}`).sort()).toEqual(
          [...heard.values()].map(({ id, state, priority }) => `${id} ${state} ${priority}`).sort(),
        );
        // Nothing that holds is without an active alert, and no alert is active without it.
        const active = alerts.filter(({ state }) => state !== 'rectified-unacknowledged');
        expect(active.map(({ kind, subject }) => `${kind} ${subject}`).sort()).toEqual(
          found.map(({ kind, subject }) => `${kind} ${subject}`).sort(),
        );
        for (const alert of alerts) {
          if (alert.priority === 'caution') expect(alert.state).toBe('active-acknowledged');
          expect(alert.stateSince).toBeGreaterThanOrEqual(alert.since);
        }
      }
    }),
    { numRuns: 500 },
  );
});
