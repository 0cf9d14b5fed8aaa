import { describe, expect, test } from 'vitest';
import { planAnswer, problem, state } from '../../../shared/messages.ts';
import { plan } from '../../../shared/plan/plan.ts';
import { SIGNALS } from '../../../shared/signals.ts';
import { AT, believableState } from './fakeDesk.ts';
import { counted, PHONE, type Reply, rig } from './help.ts';

/** Every refusal is problem details: of that kind, with words. */
function expectProblem(reply: Reply, status: number, kind: string, words: RegExp = /./): void {
  expect(reply.type).toMatch(/^application\/problem\+json/);
  const details = problem.strict().parse(reply.json);
  expect(details).toMatchObject({ status, type: `urn:hawse:problem:${kind}` });
  expect(details.detail).toMatch(words);
  expect(reply.status).toBe(status);
}

describe('looking', () => {
  test('the state is what the desk tells, and is as documented', async () => {
    const { ask } = await rig();
    const reply = await ask('GET', 'state');
    expect(reply.status).toBe(200);
    expect(reply.headers['cache-control']).toBe('no-store');
    expect(reply.json).toEqual(believableState());
    expect(state.parse(reply.json)).toEqual(believableState());
  });

  test('the track between two times, thinned to a step', async () => {
    const { ask } = await rig();
    expect((await ask('GET', 'track')).json.track).toHaveLength(60);
    const { track } = (await ask('GET', `track?from=${AT - 300}&to=${AT - 100}&step=60`)).json;
    expect(track.map(({ at }: { at: number }) => at)).toEqual([AT - 300, AT - 240, AT - 180, AT - 120]);
  });

  test.each([
    ['from=', 'from'],
    ['from=yesterday', 'from'],
    ['step=-1', 'step'],
    ['step=1&step=2', 'step'],
    ['to=1e999', 'to'],
    ['from=20&to=10', 'from'],
    ['since=3', 'since'],
  ])('a track that cannot be meant is refused: %s', async (query, path) => {
    const { ask } = await rig();
    const reply = await ask('GET', `track?${query}`);
    expectProblem(reply, 400, 'not-valid');
    expect(reply.json.errors[0]).toMatchObject({ in: 'query', path });
  });

  test('health: 200 when well, 503 with every reason when not', async () => {
    const { ask, desk } = await rig();
    expect(await ask('GET', 'health')).toMatchObject({ status: 200, json: { ok: true, reasons: [] } });
    desk.wellness = { ok: false, reasons: ['no sentence for 30 s', 'the log cannot be written: ENOSPC'] };
    const ill = await ask('GET', 'health');
    expectProblem(ill, 503, 'not-healthy', /no sentence for 30 s.*ENOSPC/);
    expect(ill.json.reasons).toEqual(desk.wellness.reasons);
  });

  test('metrics: text of the desk and of the api together, refusals counted by kind', async () => {
    const it = await rig();
    const { ask } = it;
    await ask('GET', 'nowhere');
    await ask('POST', 'mark', { lat: 'x', lon: 1 });
    const reply = await ask('GET', 'metrics');
    expect(reply.type).toMatch(/^text\/plain; version=0\.0\.4/);
    expect(reply.text).toContain('hawse_sentences_total{input="sim1"} 36000');
    expect(reply.text).toMatch(/^process_resident_memory_bytes \d/m);
    expect(await counted(it, 'hawse_refused_requests_total{reason="no-such-call"}')).toBe(1);
    expect(await counted(it, 'hawse_refused_requests_total{reason="not-valid"}')).toBe(1);
    expect(
      await counted(it, 'hawse_http_requests_total{method="POST",route="/api/v1/mark",status="400"}'),
    ).toBe(1);
  });

  test('the logbook and the planner say that they are not built', async () => {
    const { ask } = await rig();
    expectProblem(await ask('GET', 'nights'), 501, 'not-built');
    expectProblem(await ask('GET', 'nights/2026-06-01'), 501, 'not-built');
    const asked = { depth: 6, wind: 15, chain: { size: 10 } };
    expectProblem(await ask('POST', 'plan', asked), 501, 'not-built');
  });
});

describe('POST /plan', () => {
  const ASKED = { depth: 6, wind: 15, chain: { size: 10 } };
  const planning = async () => {
    const it = await rig();
    it.desk.plan = plan;
    return it;
  };

  test('is worked out for whoever may look, for the boat of hawse.yaml unless told otherwise', async () => {
    const { ask } = await planning();
    const reply = await ask('POST', 'plan', ASKED, { from: PHONE });
    expect(reply.status).toBe(200);
    const { boat } = believableState();
    expect(planAnswer.parse(reply.json)).toEqual(plan({ ...ASKED, boat }));
    const { hull, length, beam, draft, windage, roller } = boat;
    const deep = { hull, length, beam, draft: draft + 1, windage, roller };
    const other = (await ask('POST', 'plan', { ...ASKED, boat: deep })).json;
    expect(other.items.underKeelLow.value).toBeCloseTo(reply.json.items.underKeelLow.value - 1, 6);
  });

  test('what the planner refuses comes back with every fault', async () => {
    const { ask } = await planning();
    const reply = await ask('POST', 'plan', { ...ASKED, depth: 0, wind: 200 });
    expectProblem(reply, 400, 'not-valid', /depth is 0.*wind is 200/);
    expect(reply.json.errors).toHaveLength(2);
  });

  test.each([
    [{}, 'depth', /expected number/],
    [{ ...ASKED, chain: {} }, 'chain', /expected \{size\} in mm, or \{massPerMetre/],
    [{ ...ASKED, chain: { size: '10' } }, 'chain', /expected \{size\}/],
    [{ ...ASKED, riseToHihg: 2 }, 'riseToHihg', /unknown member "riseToHihg", expected depth, riseToHigh/],
    [{ ...ASKED, boat: { windage: { areaa: 3 } } }, 'boat.windage.areaa', /expected area/],
  ])('%j is refused', async (body, path, words) => {
    const { ask } = await planning();
    const reply = await ask('POST', 'plan', body);
    expectProblem(reply, 400, 'not-valid');
    expect(reply.json.errors).toContainEqual({ in: 'body', path, detail: expect.stringMatching(words) });
  });

  test('a planner that breaks is hawse’s own fault, and gives nothing away', async () => {
    const { ask, desk } = await rig();
    desk.plan = () => {
      throw new TypeError('secret inner workings');
    };
    const reply = await ask('POST', 'plan', ASKED);
    expectProblem(reply, 500, 'own-error');
    expect(reply.text).not.toContain('secret');
  });
});

describe('POST /mark', () => {
  test.each([
    [{}, { here: true }, 'here'],
    [{ lat: -16.5, lon: 179.99 }, { lat: -16.5, lon: 179.99 }, 'position'],
    [{ bearing: 45, distance: 40 }, { bearing: 45, distance: 40 }, 'bearing-and-distance'],
  ])('%j is passed on, and answered with the mark and its sigma', async (body, how, name) => {
    const { ask, desk } = await rig();
    const reply = await ask('POST', 'mark', body);
    expect(reply.status).toBe(200);
    expect(reply.json.mark).toMatchObject({ sigma: 5, how: name, by: 'this computer' });
    expect(desk.commands).toEqual([{ command: { do: 'mark', how }, by: 'this computer' }]);
  });

  test('from the track: not built yet', async () => {
    const { ask } = await rig();
    expectProblem(await ask('POST', 'mark', { fromTrack: true }), 501, 'not-built', /from the track/);
  });

  test('without a position: what it needs is not known', async () => {
    const { ask, desk } = await rig();
    delete desk.now.vessel.roller;
    expectProblem(await ask('POST', 'mark', {}), 409, 'unavailable', /no position/);
  });

  test.each([
    [{ lat: 91, lon: 0 }, 'lat', /<=90/],
    [{ lat: '1', lon: 2 }, 'lat', /expected number/],
    [{ lat: null, lon: 2 }, 'lat', /expected number/],
    [{ lat: 1, lon: 2, sigma: 3 }, 'sigma', /unknown member "sigma", expected lat, lon, bearing/],
    [{ bearing: 361, distance: 3 }, 'bearing', /<=360/],
    [{ bearing: 0, distance: -3 }, 'distance', />=0/],
    [{ fromTrack: false }, 'fromTrack', /true/],
    [{ anchor: 1 }, 'anchor', /unknown member "anchor"/],
    [{ lat: 1 }, '', /expected \{\}, \{lat, lon\}, \{bearing, distance\} or \{fromTrack: true\}/],
    [{ lat: 1, lon: 2, fromTrack: true }, '', /expected \{\}/],
    [{ lat: 1, distance: 2 }, '', /expected \{\}/],
    [[], '', /expected object/],
    ['{}', '', /expected object/],
    [7, '', /expected object/],
    [null, '', /expected object/],
  ])('%j is refused with the place of the fault and what is allowed there', async (body, path, words) => {
    const { ask, desk } = await rig();
    const reply = await ask('POST', 'mark', body);
    expectProblem(reply, 400, 'not-valid', words);
    expect(reply.json.errors).toContainEqual({ in: 'body', path, detail: expect.stringMatching(words) });
    expect(desk.commands).toEqual([]);
  });

  test('the order of members is nobody’s business', async () => {
    const { ask } = await rig();
    expect((await ask('POST', 'mark', { lon: 179.99, lat: -16.5 })).status).toBe(200);
  });

  test('no body at all marks nothing', async () => {
    const { ask, desk } = await rig();
    expectProblem(await ask('POST', 'mark'), 400, 'not-valid');
    expectProblem(await ask('POST', 'mark', undefined, { raw: '' }), 400, 'not-valid');
    expect(desk.commands).toEqual([]);
  });
});

describe('PATCH /watch', () => {
  test('passes a change on, null included, and answers with the watch', async () => {
    const { ask, desk } = await rig();
    const change = { veered: 50, circleRadius: null, limits: { depthBelow: 3, windAbove: null } };
    const reply = await ask('PATCH', 'watch', change);
    expect(reply).toMatchObject({ status: 200, json: { watch: { veered: 50 } } });
    expect(desk.commands[0]!.command).toEqual({ do: 'watch', change });
  });

  test('sectors are not built, and nothing beside them is taken over', async () => {
    const { ask, desk } = await rig();
    expectProblem(await ask('PATCH', 'watch', { veered: 50, sectors: [] }), 501, 'not-built', /veered/);
    expect(desk.commands).toEqual([]);
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

describe('weighing', () => {
  test('starts once, stops once; with an empty body, {} or none', async () => {
    const { ask, desk } = await rig();
    expect(await ask('POST', 'weigh')).toMatchObject({ status: 200, json: { weigh: { since: AT } } });
    expectProblem(await ask('POST', 'weigh', {}), 409, 'refused', /on already/);
    expect(await ask('DELETE', 'weigh')).toMatchObject({
      status: 200,
      json: { watch: { phase: 'watching' } },
    });
    expectProblem(await ask('DELETE', 'weigh'), 409, 'refused', /not on/);
    expect((await ask('POST', 'weigh', undefined, { raw: '' })).status).toBe(200);
    expect(desk.commands.map(({ command }) => command.do)).toEqual([
      'weigh',
      'weigh',
      'stop-weighing',
      'stop-weighing',
      'weigh',
    ]);
    expectProblem(await ask('POST', 'weigh', { now: true }), 400, 'not-valid', /unknown member "now"/);
  });

  test('aweigh closes the mark; twice makes no sense', async () => {
    const { ask, desk } = await rig();
    expect(await ask('POST', 'aweigh')).toMatchObject({ status: 200, json: { watch: { phase: 'no-mark' } } });
    expect(desk.now.watch.mark).toBeUndefined();
    expectProblem(await ask('POST', 'aweigh', {}), 409, 'refused', /no mark/);
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

describe('requests that cannot be read', () => {
  test.each([
    ['{"lat": 1,', 400, 'not-json'],
    ['nonsense', 400, 'not-json'],
    ['{"__proto__": {"lat": 1}}', 400, 'not-json'],
    ['{"constructor": {"prototype": {}}}', 400, 'not-json'],
    ['{"lat": 1e999, "lon": 0}', 400, 'not-valid'],
    [`{"x": "${'a'.repeat(70_000)}"}`, 413, 'too-long'],
  ])('%.40s', async (raw, status, kind) => {
    const { ask, desk } = await rig();
    expectProblem(await ask('POST', 'mark', undefined, { raw }), status, kind);
    expect(desk.commands).toEqual([]);
  });

  test.each(['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data', 'application/xml'])(
    'a body of type %s is refused: a page of another site could send it without asking',
    async (type) => {
      const { ask } = await rig();
      const reply = await ask('POST', 'mark', undefined, { raw: '{}', headers: { 'content-type': type } });
      expectProblem(reply, 415, 'wrong-media-type', /application\/json/);
    },
  );

  test('an unknown call, a call by another method, a malformed address', async () => {
    const { ask } = await rig();
    expectProblem(await ask('GET', 'anchor'), 404, 'no-such-call', /openapi\.json/);
    expectProblem(await ask('PUT', 'mark', {}), 404, 'no-such-call');
    expectProblem(await ask('GET', 'mark'), 404, 'no-such-call');
    expectProblem(await ask('GET', '/api/v2/state'), 404, 'no-such-call');
    expectProblem(await ask('GET', '/api/v1/%zz'), 400, 'bad-url');
    expectProblem(await ask('GET', '/live'), 426, 'upgrade-needed');
  });

  test('what the sender wrote comes back shortened', async () => {
    const { ask } = await rig();
    const reply = await ask('PATCH', 'watch', { [`x${'y'.repeat(30_000)}`]: 1 });
    expectProblem(reply, 400, 'not-valid');
    expect(reply.text.length).toBeLessThan(1000);
  });

  test('the desk failing is told as hawse’s own error, and the next request is served', async () => {
    const { ask, desk } = await rig();
    const { state: tell } = desk;
    desk.state = () => {
      throw new Error('inner workings');
    };
    const reply = await ask('GET', 'state');
    expectProblem(reply, 500, 'own-error');
    expect(reply.text).not.toContain('inner workings');
    desk.state = tell;
    expect((await ask('GET', 'state')).status).toBe(200);
  });
});
