import { describe, expect, test } from 'vitest';
import { AT } from './fakeDesk.ts';
import { expectProblem, rig } from './help.ts';

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

  test('from a track that tells too little: what it needs is not known', async () => {
    const { ask } = await rig();
    expectProblem(await ask('POST', 'mark', { fromTrack: true }), 409, 'unavailable', /track/);
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
    [
      { lat: 1 },
      '',
      /expected \{\}, \{lat, lon\}, \{bearing, distance\}, \{fromTrack: true\} or \{setBack: true\}/,
    ],
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
    const reply = await ask('POST', 'weigh/aweigh');
    expect(reply).toMatchObject({ status: 200, json: { watch: { phase: 'no-mark' } } });
    expect(desk.now.watch.mark).toBeUndefined();
    expectProblem(await ask('POST', 'weigh/aweigh', {}), 409, 'refused', /no mark/);
  });

  test('a mistaken aweigh is taken back whole; without one there is nothing to take back', async () => {
    const { ask, desk } = await rig();
    expectProblem(await ask('POST', 'weigh/undo-aweigh'), 409, 'refused', /no "aweigh"/);
    const { mark } = desk.now.watch;
    await ask('POST', 'weigh');
    await ask('POST', 'weigh/aweigh');
    expect(await ask('POST', 'weigh/undo-aweigh')).toMatchObject({
      status: 200,
      json: { watch: { phase: 'weighing', mark }, weigh: { since: AT } },
    });
    await ask('DELETE', 'weigh');
    await ask('POST', 'weigh/aweigh', {});
    const { json } = await ask('POST', 'weigh/undo-aweigh', {});
    expect(json).toMatchObject({ watch: { phase: 'watching' } });
    expect(json.weigh).toBeUndefined();
  });

  test('the wind angle now, a told one or none is held; only while weighing', async () => {
    const { ask, desk } = await rig();
    expectProblem(await ask('POST', 'weigh/hold-wind', {}), 409, 'refused', /start to weigh/);
    await ask('POST', 'weigh');
    expect((await ask('POST', 'weigh/hold-wind')).json.weigh.held).toEqual({ angle: -4, deviation: 0 });
    expect((await ask('POST', 'weigh/hold-wind', { angle: 24 })).json.weigh.held.angle).toBe(24);
    expect((await ask('POST', 'weigh/hold-wind', { angle: null })).json.weigh.held).toBeUndefined();
    delete desk.now.vessel.windApparent;
    expectProblem(await ask('POST', 'weigh/hold-wind', {}), 409, 'unavailable', /no apparent wind/);
  });

  test.each([
    [{ angle: 181 }, 'angle', /<=180/],
    [{ angle: '24' }, 'angle', /expected number/],
    [{ degrees: 24 }, 'degrees', /unknown member/],
  ])('a held wind of %j is refused', async (body, path, words) => {
    const { ask, desk } = await rig();
    const reply = await ask('POST', 'weigh/hold-wind', body);
    expectProblem(reply, 400, 'not-valid');
    expect(reply.json.errors).toContainEqual({ in: 'body', path, detail: expect.stringMatching(words) });
    expect(desk.commands).toEqual([]);
  });
});
