import { describe, expect, test } from 'vitest';
import { state } from '../../../shared/messages.ts';
import { AT, believableState } from './fakeDesk.ts';
import { counted, expectProblem, rig } from './help.ts';

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

  test('a desk without logbook or planner says so', async () => {
    const { ask } = await rig();
    expectProblem(await ask('GET', 'nights'), 409, 'unavailable', /logbook/);
    expectProblem(await ask('GET', 'nights/2026-06-01'), 400, 'not-valid', /2026-11-25T2010-1/);
    const asked = { depth: 6, wind: 15, chain: { size: 10 } };
    expectProblem(await ask('POST', 'plan', asked), 501, 'not-built');
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
