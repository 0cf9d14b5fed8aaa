import { describe, expect, test } from 'vitest';
import {
  acknowledge,
  createAlerts,
  list,
  pass,
  silence,
  TIMINGS,
  update,
} from '../../../shared/alerts/alerts.ts';
import { brought, finding, standing, T } from './help.ts';

describe('raising and refreshing', () => {
  test('a new finding is raised unacknowledged, with what it measured', () => {
    const state = createAlerts();
    const events = update(state, [finding('alarm', { value: 12, limit: 10 })], T);
    expect(events).toEqual([
      {
        event: 'alert',
        t: T,
        id: 'wind-speed.1',
        kind: 'wind-speed',
        priority: 'alarm',
        state: 'active-unacknowledged',
        text: 'a alarm',
        value: 12,
        limit: 10,
      },
    ]);
    expect(list(state)[0]).toMatchObject({ since: T, stateSince: T });
  });

  test('what a finding does not measure is absent from its event, not there as undefined', () => {
    expect(update(createAlerts(), [finding('alarm')], T)).toStrictEqual([
      {
        event: 'alert',
        t: T,
        id: 'wind-speed.1',
        kind: 'wind-speed',
        priority: 'alarm',
        state: 'active-unacknowledged',
        text: 'a alarm',
      },
    ]);
  });

  test('a finding that goes on refreshes text, value and limit without an event, and drops a value it no longer has', () => {
    const state = createAlerts();
    update(state, [finding('alarm', { value: 12, limit: 10 })], T);
    expect(update(state, [finding('alarm', { text: 'other', value: 13 })], T + 1)).toEqual([]);
    const alert = list(state)[0]!;
    expect(alert).toMatchObject({ text: 'other', value: 13, since: T, stateSince: T });
    expect('limit' in alert).toBe(false);
  });

  test('subjects keep alerts of one kind apart', () => {
    const state = createAlerts();
    const near = (subject: string) => finding('alarm', { kind: 'vessel-near', subject });
    expect(update(state, [near('1'), near('2')], T).map(({ id }) => id)).toEqual([
      'vessel-near.1',
      'vessel-near.2',
    ]);
    expect(update(state, [near('2')], T + 1)).toMatchObject([
      { id: 'vessel-near.1', state: 'rectified-unacknowledged' },
    ]);
  });

  test('two findings of one kind and subject make one alert of the higher priority', () => {
    for (const pair of [
      [finding('caution'), finding('alarm')],
      [finding('alarm'), finding('caution')],
    ]) {
      const state = createAlerts();
      expect(update(state, pair, T)).toHaveLength(1);
      expect(standing(state)).toBe('alarm active-unacknowledged');
      expect(update(state, pair, T + 1)).toEqual([]);
    }
  });

  test('an id is never used twice', () => {
    const { state } = brought('normal');
    expect(update(state, [finding('alarm')], T + 1)[0]!.id).toBe('wind-speed.2');
  });

  test('a rectified alert that nobody acknowledged comes back under its own id', () => {
    const { state, id, found } = brought('rectified-unacknowledged');
    expect(update(state, found, T + 5)).toMatchObject([{ id, state: 'active-unacknowledged', t: T + 5 }]);
  });
});

describe('cautions', () => {
  test('a caution is active, needs no acknowledgement and goes straight to normal', () => {
    const state = createAlerts();
    expect(update(state, [finding('caution')], T)[0]!.state).toBe('active-acknowledged');
    expect(list(state)[0]).not.toHaveProperty('acknowledgedBy');
    expect(update(state, [], T + 1)[0]!.state).toBe('normal');
    expect(list(state)).toEqual([]);
  });

  test('a caution can be neither acknowledged nor silenced, and says so', () => {
    const state = createAlerts();
    const id = update(state, [finding('caution')], T)[0]!.id;
    expect(acknowledge(state, id, 'Ann', T)).toMatchObject({
      ok: false,
      problem: 'refused',
      why: expect.stringContaining('caution'),
    });
    expect(silence(state, id, 'Ann', T)).toMatchObject({
      ok: false,
      problem: 'refused',
      why: expect.stringContaining('no sound'),
    });
  });
});

describe('priorities that change', () => {
  const rises = [
    ['caution', 'warning'],
    ['caution', 'alarm'],
    ['warning', 'alarm'],
  ] as const;
  for (const [from, to] of rises) {
    test(`${from} → ${to}: the same alert is raised again, unacknowledged`, () => {
      const state = createAlerts();
      const id = update(state, [finding(from)], T)[0]!.id;
      if (from !== 'caution') acknowledge(state, id, 'Ann', T + 1);
      expect(update(state, [finding(to)], T + 2)).toMatchObject([
        { id, priority: to, state: 'active-unacknowledged' },
      ]);
      expect(list(state)[0]).not.toHaveProperty('acknowledgedBy');
      expect(update(state, [finding(to)], T + 3)).toEqual([]);
    });
  }

  test('a silenced warning that becomes an alarm sounds at once', () => {
    const { state } = brought('active-silenced', 'warning');
    update(state, [finding('alarm')], T + 1);
    expect(standing(state)).toBe('alarm active-unacknowledged');
  });

  test('an unacknowledged alarm whose situation becomes a warning stays an alarm until acknowledged, then follows down silently', () => {
    const { state, id } = brought('active-unacknowledged');
    expect(update(state, [finding('warning')], T + 1)).toEqual([]);
    expect(standing(state)).toBe('alarm active-unacknowledged');
    acknowledge(state, id, 'Ann', T + 2);
    expect(update(state, [finding('warning')], T + 3)).toMatchObject([
      { id, priority: 'warning', state: 'active-acknowledged' },
    ]);
    expect(list(state)[0]).toMatchObject({ acknowledgedBy: 'Ann', acknowledgedAt: T + 2 });
  });

  test('an acknowledged alarm that fell to a warning and rises again is raised again', () => {
    const { state } = brought('active-acknowledged');
    update(state, [finding('warning')], T + 1);
    expect(update(state, [finding('alarm')], T + 2)).toMatchObject([
      { priority: 'alarm', state: 'active-unacknowledged' },
    ]);
  });

  test('a warning that becomes an alarm unacknowledged has been in that state since it began', () => {
    const { state } = brought('active-unacknowledged', 'warning');
    update(state, [finding('alarm')], T + 5);
    expect(list(state)[0]).toMatchObject({ priority: 'alarm', since: T, stateSince: T });
  });

  test('an alarm that fell unseen and then ended still asks for its acknowledgement', () => {
    const { state } = brought('active-unacknowledged');
    update(state, [finding('caution')], T + 1);
    update(state, [], T + 2);
    expect(standing(state)).toBe('alarm rectified-unacknowledged');
  });
});

describe('silence', () => {
  test('lasts exactly 30 s (MSC.302 §7.3, MSC.252 §20.2.4 [F])', () => {
    expect(TIMINGS.silence).toBe(30);
    const { state, id } = brought('active-silenced');
    expect(pass(state, T + 29.999)).toEqual([]);
    expect(pass(state, T + 30)).toMatchObject([{ id, t: T + 30, state: 'active-unacknowledged' }]);
    expect(pass(state, T + 31)).toEqual([]);
  });

  test('can be asked for again when it is over', () => {
    const { state, id } = brought('active-silenced');
    pass(state, T + 30);
    expect(silence(state, id, 'Bob', T + 40)).toMatchObject({ ok: true, events: [{ by: 'Bob' }] });
    expect(pass(state, T + 69)).toEqual([]);
    expect(pass(state, T + 70)).toHaveLength(1);
  });
});

describe('escalation of a warning that nobody acknowledges (MSC.302 §7.4–7.6, at most 5 min [M])', () => {
  test('after 300 s it is an alarm, once, under the same id', () => {
    const { state, id } = brought('active-unacknowledged', 'warning');
    expect(pass(state, T + 299.9)).toEqual([]);
    expect(pass(state, T + 300)).toMatchObject([{ id, priority: 'alarm', state: 'active-unacknowledged' }]);
    expect(list(state)[0]!.escalated).toBe(true);
    expect(pass(state, T + 900)).toEqual([]);
  });

  test('silence does not put it off', () => {
    const { state, id } = brought('active-unacknowledged', 'warning');
    silence(state, id, 'Ann', T + 290);
    pass(state, T + 300);
    expect(standing(state)).toBe('alarm active-unacknowledged');
  });

  test('an acknowledged warning, a caution and a rectified warning never escalate', () => {
    for (const state of [
      brought('active-acknowledged', 'warning').state,
      brought('rectified-unacknowledged', 'warning').state,
    ])
      expect(pass(state, T + 10_000)).toEqual([]);
    const state = createAlerts();
    update(state, [finding('caution')], T);
    expect(pass(state, T + 10_000)).toEqual([]);
  });

  test('spells that nobody answered add up; the time between them does not count', () => {
    const { state, found } = brought('active-unacknowledged', 'warning');
    update(state, [], T + 200);
    update(state, found, T + 5000);
    expect(pass(state, T + 5099)).toEqual([]);
    expect(pass(state, T + 5100)).toMatchObject([{ priority: 'alarm' }]);
  });

  test('an escalated alarm that is acknowledged stays an alarm while its warning holds', () => {
    const { state, id, found } = brought('active-unacknowledged', 'warning');
    pass(state, T + 300);
    acknowledge(state, id, 'Ann', T + 301);
    expect(update(state, found, T + 302)).toEqual([]);
    expect(standing(state)).toBe('alarm active-acknowledged');
    expect(update(state, [finding('alarm')], T + 303)).toMatchObject([{ state: 'active-unacknowledged' }]);
    expect(list(state)[0]).not.toHaveProperty('escalated');
  });

  test('an escalated alarm that is acknowledged follows its situation down once that is less than a warning', () => {
    const { state, id } = brought('active-unacknowledged', 'warning');
    pass(state, T + 300);
    acknowledge(state, id, 'Ann', T + 301);
    expect(update(state, [finding('caution')], T + 302)).toMatchObject([
      { id, priority: 'caution', state: 'active-acknowledged' },
    ]);
    expect(list(state)[0]).not.toHaveProperty('escalated');
  });
});

describe('people', () => {
  test('who acknowledged, and when, is kept and told', () => {
    const { state, id } = brought('active-unacknowledged');
    expect(acknowledge(state, id, 'Ann', T + 3)).toMatchObject({
      ok: true,
      events: [{ id, t: T + 3, by: 'Ann', state: 'active-acknowledged' }],
    });
    expect(list(state)[0]).toMatchObject({ acknowledgedBy: 'Ann', acknowledgedAt: T + 3 });
    expect(acknowledge(state, id, 'Bob', T + 4)).toMatchObject({
      ok: false,
      problem: 'refused',
      why: expect.stringContaining('by Ann'),
    });
  });

  test('silencing is no acknowledgement: nobody is written down', () => {
    const { state } = brought('active-silenced');
    expect(list(state)[0]).not.toHaveProperty('acknowledgedBy');
    expect(list(state)[0]).not.toHaveProperty('acknowledgedAt');
  });

  test('what cannot be silenced says why, and what to do', () => {
    const why = (state: Parameters<typeof brought>[0]): unknown => {
      const world = brought(state);
      return silence(world.state, world.id, 'Bob', T + 1);
    };
    const refused = (words: RegExp) => ({
      ok: false,
      problem: 'refused',
      why: expect.stringMatching(words),
    });
    expect(why('active-silenced')).toMatchObject(refused(/silenced already.*acknowledged/));
    expect(why('rectified-unacknowledged')).toMatchObject(refused(/ended.*Acknowledge/));
    expect(why('active-acknowledged')).toMatchObject(refused(/acknowledged already, by Ann/));
  });

  test('an alert that is not there is unknown, also once it is normal again', () => {
    const { state, id } = brought('normal');
    for (const act of [acknowledge, silence])
      expect(act(state, id, 'Ann', T)).toMatchObject({
        ok: false,
        problem: 'unknown',
        why: expect.stringContaining(id),
      });
  });
});

describe('the list', () => {
  test('most urgent first, unacknowledged before acknowledged, then the newest; changing it changes nothing inside', () => {
    const state = createAlerts();
    const wind = finding('warning');
    const shoal = finding('alarm', { kind: 'shoal' });
    const heading = finding('caution', { kind: 'heading-lost' });
    const circle = finding('alarm', { kind: 'outside-circle' });
    const drag = finding('alarm', { kind: 'drag' });
    update(state, [heading, wind, shoal], T);
    acknowledge(state, 'shoal.3', 'Ann', T + 1);
    update(state, [heading, wind, shoal, circle], T + 2);
    update(state, [heading, wind, shoal, circle, drag], T + 3);
    expect(list(state).map(({ kind }) => kind)).toEqual([
      'drag',
      'outside-circle',
      'shoal',
      'wind-speed',
      'heading-lost',
    ]);
    // A newer one of less weight does not push what moves the boat from the top.
    update(state, [heading, wind, shoal, circle, drag, finding('alarm', { kind: 'deep' })], T + 4);
    expect(
      list(state)
        .map(({ kind }) => kind)
        .slice(0, 3),
    ).toEqual(['drag', 'outside-circle', 'deep']);
    list(state)[0]!.text = 'changed';
    expect(list(state)[0]!.text).toBe('a alarm');
  });

  test('what moves or blinds the boat stands above newer alarms of other kinds, in this order', () => {
    const state = createAlerts();
    const order = [
      'drag',
      'adrift',
      'outside-circle',
      'outside-sector',
      'shoal',
      'vessel-near',
      'position-lost',
    ] as const;
    const found = order.map((kind) => finding('alarm', { kind })).reverse();
    update(state, found, T);
    update(state, [...found, finding('alarm', { kind: 'deep' })], T + 1);
    update(state, [...found, finding('alarm', { kind: 'deep' }), finding('alarm')], T + 2);
    expect(list(state).map(({ kind }) => kind)).toEqual([...order, 'wind-speed', 'deep']);
  });

  test('what began in one moment keeps one order, whichever was found first', () => {
    const near = (subject: string) => finding('alarm', { kind: 'vessel-near', subject });
    const state = createAlerts();
    update(state, [near('a'), near('b'), near('c')], T);
    const ids = ['vessel-near.1', 'vessel-near.2', 'vessel-near.3'];
    expect(list(state).map(({ id }) => id)).toEqual(ids);
    state.held.reverse();
    expect(list(state).map(({ id }) => id)).toEqual(ids);
  });
});
