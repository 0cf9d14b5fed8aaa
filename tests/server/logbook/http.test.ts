import { describe, expect, test } from 'vitest';
import { settingsOf } from '../../../server/commands/rehearse.ts';
import { anchorages } from '../../../server/simulate/anchorages.ts';
import {
  importAnswer,
  nightAnswer,
  nightsAnswer,
  placesAnswer,
  trackAnswer,
} from '../../../shared/messages.ts';
import { api, daemonAtHand, emptyFolder } from '../daemonAtHand.ts';
import { keepNights, START, whole } from './keptNight.ts';

const ID = '2026-11-25T2010-1';

/** A daemon whose data folder holds one night of an earlier run. */
async function daemonWithNight() {
  const kept = await keepNights(emptyFolder(), { anchorage: 'quiet-night' });
  await kept.live(10);
  const { lat, lon } = kept.anchor();
  await kept.keeper.feed({
    kind: 'command',
    by: 'Ann',
    command: { do: 'mark', how: { lat, lon, sigma: 2 } },
  });
  await kept.live(150);
  await kept.keeper.feed({ kind: 'command', by: 'Ann', command: { do: 'aweigh' } });
  await kept.stop();
  const daemon = await daemonAtHand({
    settings: settingsOf(anchorages()[0]!),
    data: kept.data,
    start: START + 86_400,
    feeder: () => ({ stop: async () => {} }),
  });
  return { daemon, mark: { lat, lon }, kept };
}
const running = daemonWithNight();

const get = async (path: string) => api((await running).daemon, path);

describe('the logbook over HTTP', () => {
  test('lists and opens a night, as documented', async () => {
    const { mark } = await running;
    const { nights, total } = nightsAnswer.parse(await (await get('/nights')).json());
    expect(total).toBe(1);
    expect(nights[0]).toMatchObject({ id: ID, mark });
    expect(nightsAnswer.parse(await (await get(`/nights?before=${ID}`)).json()).nights).toEqual([]);
    const night = nightAnswer.strict().parse(await (await get(`/nights/${ID}`)).json());
    expect(night.strips.length).toBeGreaterThan(3);
    expect((await get('/nights/2020-01-01T0000-1')).status).toBe(404);
    expect((await get('/nights/..%2Fkey')).status).toBe(400);
    expect((await get('/nights?limit=0')).status).toBe(400);
  });

  test('gives out sentences and inputs, packed or not', async () => {
    const { kept } = await running;
    const sentences = await get(`/nights/${ID}/sentences`);
    expect(sentences.headers.get('content-disposition')).toContain(`${ID}.nmea`);
    expect(await sentences.text()).toBe(await whole(await kept.logbook.sentences(ID)));
    const { daemon } = await running;
    const plain = await fetch(`http://127.0.0.1:${daemon.port}/api/v1/nights/${ID}/inputs`, {
      headers: { 'accept-encoding': 'identity' },
    });
    expect(plain.headers.get('content-encoding')).toBeNull();
    const lines = (await plain.text())
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(lines[0]).toMatchObject({ kind: 'checkpoint', exact: true });
    expect(lines[1]).toMatchObject({ kind: 'command', command: { do: 'mark' } });
    expect(lines.at(-1)).toMatchObject({ kind: 'command', command: { do: 'aweigh' } });
    for (const as of ['gpx', 'geojson', 'csv', 'nmea'])
      expect((await get(`/nights/${ID}/export?as=${as}`)).status).toBe(200);
    expect((await get(`/nights/${ID}/export?as=kml`)).status).toBe(400);
  });

  test('gives out the incident report as a page that is saved, not shown: its style is its own', async () => {
    const report = await get(`/nights/${ID}/report`);
    expect(report.headers.get('content-type')).toBe('text/html; charset=utf-8');
    expect(report.headers.get('content-disposition')).toBe(`attachment; filename="${ID}.html"`);
    const html = await report.text();
    expect(html).toContain('record of an anchorage');
    expect(html).toContain(`from night ${ID}`);
    expect((await get('/nights/2020-01-01T0000-1/report')).status).toBe(404);
  });

  test('takes names and notes, and offers the place when she comes back', async () => {
    const { daemon, mark } = await running;
    const said = await api(daemon, `/nights/${ID}`, 'PATCH', {
      place: 'Petrel Cove',
      notes: 'Weed off the point.',
    });
    expect(said.status).toBe(200);
    expect(await said.json()).toMatchObject({ summary: { place: 'Petrel Cove' } });
    const near = `${mark.lat + 0.002},${mark.lon}`;
    const { places } = placesAnswer.parse(await (await get(`/places?near=${near}`)).json());
    expect(places).toHaveLength(1);
    expect(places[0]).toMatchObject({
      name: 'Petrel Cove',
      nights: [{ id: ID, notes: 'Weed off the point.' }],
    });
    expect(places[0]!.distance).toBeGreaterThan(215);
    expect(places[0]!.bearing).toBeCloseTo(180, 0);
    const far = placesAnswer.parse(await (await get(`/places?near=${mark.lat + 0.02},${mark.lon}`)).json());
    expect(far.places).toEqual([]);
    // Where she is now is not known: no sentence has come.
    expect((await get('/places')).status).toBe(409);
    expect((await get('/places?near=95,0')).status).toBe(400);
    expect((await api(daemon, `/nights/${ID}`, 'PATCH', { place: null })).status).toBe(200);
    expect(
      placesAnswer.parse(await (await get(`/places?near=${near}`)).json()).places[0]!.name,
    ).toBeUndefined();
  });

  test('the track of past times comes from the logbook', async () => {
    const { track } = trackAnswer.parse(await (await get(`/track?from=${START}&to=${START + 3600}`)).json());
    expect(track.length).toBeGreaterThan(3);
    expect(track.every(({ at }) => at > START && at < START + 200)).toBe(true);
    const step = trackAnswer.parse(
      await (await get(`/track?from=${START}&to=${START + 3600}&step=60`)).json(),
    );
    expect(step.track.length).toBeLessThan(track.length);
  });

  test('a recording is imported, or refused in words', async () => {
    const { daemon, mark, kept } = await running;
    const text = await whole(await kept.logbook.sentences(ID));
    const send = (query: string, body: BodyInit, type = 'application/octet-stream') =>
      fetch(`http://127.0.0.1:${daemon.port}/api/v1/nights/import?${query}`, {
        method: 'POST',
        headers: { 'content-type': type },
        body,
      });
    const done = await send(`name=old.nmea&lat=${mark.lat}&lon=${mark.lon}&veered=30`, text);
    const { summary } = importAnswer.parse(await done.json());
    expect(summary).toMatchObject({ id: '2026-11-25T2010-2', origin: 'import', mark });
    expect((await get(`/nights/${summary.id}`)).status).toBe(200);
    const refused = await send('name=x', 'no sentences here\n');
    expect(refused.status).toBe(400);
    expect(await refused.json()).toMatchObject({ detail: expect.stringContaining('anchorage file') });
    expect((await send('anchorage=%7B%22mark%22%3A1%7D', text)).status).toBe(400);
    expect((await send(`lat=${mark.lat}`, text)).status).toBe(400);
    expect((await send('', '{}', 'application/json')).status).toBe(415);
  });

  test('goes with the daemon', async () => {
    await (await running).daemon.stop('test over');
  });
});
