import { describe, expect, test } from 'vitest';
import { SIGNALS } from '../../../shared/signals.ts';
import { expectProblem, rig } from './help.ts';

describe('PATCH /watch', () => {
  test('passes a change on, null included, and answers with the watch', async () => {
    const { ask, desk } = await rig();
    const change = { veered: 50, circleRadius: null, limits: { depthBelow: 3, windAbove: null } };
    const reply = await ask('PATCH', 'watch', change);
    expect(reply).toMatchObject({ status: 200, json: { watch: { veered: 50 } } });
    expect(desk.commands[0]!.command).toEqual({ do: 'watch', change });
  });

  test('passes sectors on', async () => {
    const { ask, desk } = await rig();
    const change = { sectors: [{ name: 'the bank', from: 350, to: 40, beyond: 25 }] };
    expect(await ask('PATCH', 'watch', change)).toMatchObject({ status: 200 });
    expect(desk.commands[0]!.command).toEqual({ do: 'watch', change });
  });

  test.each([
    [{}, '', /at least one/],
    [{ veered: 0.5 }, 'veered', />=1/],
    [{ veered: null }, 'veered', /expected number/],
    [{ circleradius: 50 }, 'circleradius', /unknown member/],
    [{ circleRadius: 6000 }, 'circleRadius', /<=5000/],
    [{ limits: { depthbelow: 3 } }, 'limits.depthbelow', /unknown member/],
    [{ limits: { windShift: 181 } }, 'limits.windShift', /<=180/],
    [{ limits: [] }, 'limits', /expected object/],
    [{ sectors: [{ from: 0, to: 10 }] }, 'sectors.0.beyond', /expected number/],
    [{ sectors: [{ from: -1, to: 10, beyond: 5 }] }, 'sectors.0.from', />=0/],
  ])('%j is refused', async (body, path, words) => {
    const { ask, desk } = await rig();
    const reply = await ask('PATCH', 'watch', body);
    expectProblem(reply, 400, 'not-valid');
    expect(reply.json.errors).toContainEqual({ in: 'body', path, detail: expect.stringMatching(words) });
    expect(desk.commands).toEqual([]);
  });

  test('every fault is told, not only the first', async () => {
    const { ask } = await rig();
    const { json } = await ask('PATCH', 'watch', { veered: 'x', circleRadius: 0, limits: { windAbove: 99 } });
    expect(json.errors.map((fault: { path: string }) => fault.path)).toEqual([
      'veered',
      'circleRadius',
      'limits.windAbove',
    ]);
  });
});

describe('alerts', () => {
  test('acknowledge and silence reach the alert of that id, and answer with its new state', async () => {
    const { ask, desk } = await rig();
    expect((await ask('POST', 'alerts/shoal.1/silence')).json).toEqual({
      id: 'shoal.1',
      state: 'active-silenced',
    });
    expect((await ask('POST', 'alerts/shoal.1/acknowledge', {})).json).toEqual({
      id: 'shoal.1',
      state: 'active-acknowledged',
    });
    expect(desk.commands.map(({ command }) => command)).toEqual([
      { do: 'silence', alert: 'shoal.1' },
      { do: 'acknowledge', alert: 'shoal.1' },
    ]);
  });

  test('an alert that is gone when it is acknowledged has become normal', async () => {
    const { ask, desk } = await rig();
    desk.command = async () => {
      desk.now.alerts = [];
      return { ok: true };
    };
    expect((await ask('POST', 'alerts/shoal.1/acknowledge')).json).toEqual({
      id: 'shoal.1',
      state: 'normal',
    });
  });

  test('an alert that there is not: 404 that names it', async () => {
    const { ask } = await rig();
    expectProblem(await ask('POST', 'alerts/drag.7/acknowledge'), 404, 'unknown', /drag\.7/);
    expectProblem(await ask('POST', `alerts/${'x'.repeat(200)}/silence`), 400, 'bad-url');
    expectProblem(await ask('POST', 'alerts/shoal.1/forget'), 404, 'no-such-call');
  });
});

describe('signals that are none', () => {
  test.each([
    'lead:13',
    'lead:0',
    'lead:',
    'out:-1',
    'out:1000',
    'out:1.5',
    'Stop',
    'stop ',
    '',
    'lead ahead',
    '__proto__',
  ])('"%s" is refused with what is allowed', async (signal) => {
    const { ask, desk } = await rig();
    const reply = await ask('POST', 'signals', { signal });
    expectProblem(reply, 400, 'not-valid', /lead:1 to lead:12/);
    for (const word of SIGNALS) expect(reply.json.detail).toContain(word);
    expect(desk.commands).toEqual([]);
  });

  test('a signal while nobody weighs is refused', async () => {
    const { ask } = await rig();
    expectProblem(await ask('POST', 'signals', { signal: 'stop' }), 409, 'refused', /start to weigh/);
  });
});
