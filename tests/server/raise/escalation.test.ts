import { describe, expect, test } from 'vitest';
import { escalate, type Unanswered } from '../../../server/raise/escalation.ts';
import type { Alert } from '../../../shared/alerts/alert.ts';
import { alertOf } from './help.ts';

/** What the table asks: a horn as hawse.yaml makes it when nothing is told, and a display that is told everything. */
const HORN = { id: 'horn', after: { alarm: 30, warning: 120 }, atOnceWithoutPhone: true };
const PATIENT = { ...HORN, id: 'patient', atOnceWithoutPhone: false };
const BUS = { id: 'bus', after: { alarm: 0, warning: 0, caution: 0 }, atOnceWithoutPhone: true };
const LATE_BUS = { id: 'late', after: { alarm: 30, warning: 120, caution: 60 }, atOnceWithoutPhone: true };

const T = 1000;
const alarm = (state: Alert['state'], since: number) =>
  alertOf('drag', { id: 'drag.1', priority: 'alarm', state, stateSince: since });
const warning = (state: Alert['state'], since: number) =>
  alertOf('wind-speed', { id: 'wind-speed.1', priority: 'warning', state, stateSince: since });
const caution = (since: number) =>
  alertOf('clock', { priority: 'caution', state: 'active-acknowledged', stateSince: since });

/** Names of the outputs that sound, and of those that tell, at T with nothing known from before. */
const at = (alert: Alert, phoneWakes: boolean, before: Unanswered = {}) => {
  const { wanted } = escalate(before, [alert], T, phoneWakes, [HORN, PATIENT, BUS, LATE_BUS]);
  const ids = Object.keys(wanted);
  return {
    sounds: ids.filter((id) => wanted[id]!.sounding.length > 0).join(' '),
    tells: ids.filter((id) => wanted[id]!.tell.length > 0).join(' '),
  };
};

const PHONE = true;
const NO_PHONE = false;

test.each<[what: string, alert: Alert, phone: boolean, sounds: string, tells: string]>([
  ['a new alarm: the pages first', alarm('active-unacknowledged', T), PHONE, 'bus', 'bus'],
  ['not yet 30 s', alarm('active-unacknowledged', T - 29.9), PHONE, 'bus', 'bus'],
  [
    '30 s without answer',
    alarm('active-unacknowledged', T - 30),
    PHONE,
    'horn patient bus late',
    'horn patient bus late',
  ],
  ['a new alarm and no phone', alarm('active-unacknowledged', T), NO_PHONE, 'horn bus late', 'horn bus late'],
  ['silenced alarm, old', alarm('active-silenced', T - 40), PHONE, '', 'horn patient bus late'],
  ['silenced, no phone', alarm('active-silenced', T), NO_PHONE, '', 'horn bus late'],
  ['acknowledged', alarm('active-acknowledged', T - 500), PHONE, '', 'bus'],
  ['acknowledged, no phone', alarm('active-acknowledged', T - 500), NO_PHONE, '', 'bus'],
  [
    'over, not acknowledged',
    alarm('rectified-unacknowledged', T - 500),
    NO_PHONE,
    '',
    'horn patient bus late',
  ],
  ['warning, 1 min', warning('active-unacknowledged', T - 60), PHONE, 'bus', 'bus'],
  [
    'warning, 1 min, no phone: only alarms are hastened',
    warning('active-unacknowledged', T - 60),
    NO_PHONE,
    'bus',
    'bus',
  ],
  [
    'warning, 2 min',
    warning('active-unacknowledged', T - 120),
    PHONE,
    'horn patient bus late',
    'horn patient bus late',
  ],
  ['caution, new', caution(T), PHONE, '', 'bus'],
  ['caution, 1 min: told where configured, never sounds', caution(T - 60), NO_PHONE, '', 'bus late'],
])('%s', (_what, alert, phone, sounds, tells) => {
  expect(at(alert, phone)).toEqual({ sounds, tells });
});

describe('what is remembered', () => {
  const run = (steps: [at: number, alert: Alert | undefined][]) => {
    let unanswered: Unanswered = {};
    return steps.map(([now, alert]) => {
      const next = escalate(unanswered, alert ? [alert] : [], now, true, [HORN]);
      unanswered = next.unanswered;
      return next.wanted.horn!.sounding.length > 0;
    });
  };

  test('an alarm that comes and goes unanswered cannot put the horn off', () => {
    expect(
      run([
        [0, alarm('active-unacknowledged', 0)],
        [10, alarm('rectified-unacknowledged', 10)],
        [20, alarm('active-unacknowledged', 20)],
        [29, alarm('active-unacknowledged', 20)],
        [30, alarm('active-unacknowledged', 20)],
      ]),
    ).toEqual([false, false, false, false, true]);
  });

  test('a silence that runs out finds the horn waiting', () => {
    expect(
      run([
        [0, alarm('active-unacknowledged', 0)],
        [5, alarm('active-silenced', 5)],
        [35, alarm('active-unacknowledged', 35)],
      ]),
    ).toEqual([false, false, true]);
  });

  test('an answer begins the count anew: raised again after an acknowledgement', () => {
    expect(
      run([
        [0, alarm('active-unacknowledged', 0)],
        [20, alarm('active-acknowledged', 20)],
        [100, alarm('active-unacknowledged', 100)],
        [129, alarm('active-unacknowledged', 100)],
        [130, alarm('active-unacknowledged', 100)],
      ]),
    ).toEqual([false, false, false, false, true]);
  });

  test('a warning that becomes an alarm has just been told as one; unless it became one because nobody answered', () => {
    const old = warning('active-unacknowledged', 0);
    const worse: Alert = { ...old, priority: 'alarm', stateSince: 0 };
    expect(
      run([
        [0, old],
        [100, worse],
        [129, worse],
        [130, worse],
      ]),
    ).toEqual([false, false, false, true]);
    expect(
      run([
        [0, old],
        [100, { ...worse, escalated: true }],
      ]),
    ).toEqual([false, true]);
  });

  test('nothing is remembered of what is normal', () => {
    const { unanswered } = escalate({ 'drag.1': { priority: 'alarm', since: 0 } }, [], 5, true, [HORN]);
    expect(unanswered).toEqual({});
  });
});
