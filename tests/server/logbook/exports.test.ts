import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { check } from '@placemarkio/check-geojson';
import { XmlDocument, XsdValidator } from 'libxml2-wasm';
import { describe, expect, test } from 'vitest';
import { csv } from '../../../server/logbook/export/csv.ts';
import { geojson } from '../../../server/logbook/export/geojson.ts';
import { gpx } from '../../../server/logbook/export/gpx.ts';
import type { TrackFix } from '../../../server/logbook/points.ts';
import { distanceBearing } from '../../../shared/earth/geodesic.ts';
import type { Night } from '../../../shared/logbook/night.ts';
import { keepNights, whole } from './keptNight.ts';

const ID = '2026-11-25T2010-1';
const schema = readFileSync(fileURLToPath(new URL('../../../fixtures/gpx-1.1.xsd', import.meta.url)), 'utf8');

/** Throws what libxml2 has against it; the schema is the published one [F: GPX 1.1, topografix.com, as Debian's pytrainer and zoph carry it]. */
function validate(xml: string): void {
  const xsd = XmlDocument.fromString(schema);
  const validator = XsdValidator.fromDoc(xsd);
  const document = XmlDocument.fromString(xml);
  try {
    validator.validate(document);
  } finally {
    document.dispose();
    validator.dispose();
    xsd.dispose();
  }
}

async function keptNight() {
  const kept = await keepNights();
  await kept.live(10);
  const { lat, lon } = kept.anchor();
  await kept.keeper.feed({
    kind: 'command',
    by: 'Ann',
    command: { do: 'mark', how: { lat, lon, sigma: 2 } },
  });
  await kept.keeper.feed({
    kind: 'command',
    by: 'Ann',
    command: { do: 'watch', change: { circleRadius: 5 } },
  });
  await kept.live(240);
  await kept.keeper.feed({ kind: 'command', by: 'Ann', command: { do: 'aweigh' } });
  await kept.live(5);
  await kept.stop();
  await kept.logbook.say(ID, {
    place: 'Bay of <Tests> & "quotes"',
    notes: 'Bell\u0007 and half a pair \ud800.',
  });
  return kept;
}
const kept = keptNight();

/** Fixes 8 m apart over the antimeridian, with a pause in which nothing was known. */
const across: TrackFix[] = [179.9999, 179.99998, -179.99994, -179.9999].map((lon, i) => ({
  at: 1_700_000_000 + (i < 3 ? i : 300 + i),
  lat: -16.5 + i * 1e-6,
  lon,
  doubtful: false,
}));
const listed = async function* (fixes: TrackFix[]) {
  yield* fixes;
};

async function night(): Promise<Night> {
  return (await kept).logbook.open(ID);
}

describe('a night written for others', () => {
  test('GPX 1.1: valid, also with hostile names; the mark, the alarm and every fix are in it', async () => {
    const { logbook } = await kept;
    const xml = await whole(await logbook.export(ID, 'gpx'));
    validate(xml);
    expect(xml).toContain('<name>Bay of &lt;Tests&gt; &amp; &quot;quotes&quot;, 2026-11-25T2010-1</name>');
    expect(xml).toContain('alarm: outside-circle');
    expect(xml.match(/<trkpt /g)!.length).toBeGreaterThan(200);
    expect(xml.match(/<trkseg>/g)).toHaveLength(1);
    const times = [...xml.matchAll(/<trkpt [^>]*><time>([^<]*)<\/time>/g)].map(([, time]) => time!);
    expect(times.every((time) => /^2026-11-25T20:\d\d:\d\d\.\d{3}Z$/.test(time))).toBe(true);
    expect([...times].sort()).toEqual(times);
  });

  test('the check of GPX can fail: a longitude of 180, and a track before a waypoint', async () => {
    const { logbook } = await kept;
    const xml = await whole(await logbook.export(ID, 'gpx'));
    expect(() => validate(xml.replace(/lon="[^"]*"/, 'lon="180.0"'))).toThrow(/lon|180/);
    expect(() => validate(xml.replace('</trk>', '</trk><wpt lat="1" lon="1"/>'))).toThrow(/wpt/);
  });

  test('GPX: over the antimeridian every longitude stays below 180; a pause breaks the track; no fix gives an empty track', async () => {
    const edge = [...across, { ...across[0]!, at: 1_700_000_304, lon: 180 }];
    const xml = await whole(gpx({ night: await night(), fixes: listed(edge) }));
    validate(xml);
    expect(xml).toContain('lon="-180.00000000"');
    expect(xml.match(/<trkseg>/g)).toHaveLength(2);
    const empty = await whole(gpx({ night: await night(), fixes: listed([]), remark: 'coarse' }));
    validate(empty);
    expect(empty).toContain('coarse');
  });

  test('GeoJSON: RFC 7946 by a library; a time for each position', async () => {
    const { logbook } = await kept;
    const text = await whole(await logbook.export(ID, 'geojson'));
    const collection = check(text) as unknown as Collection;
    const [mark, ...rest] = collection.features;
    expect(mark!.properties).toMatchObject({ kind: 'mark', summary: { id: ID } });
    const tracks = rest.filter(({ properties }) => properties.kind === 'track');
    expect(tracks).toHaveLength(1);
    expect(tracks[0]!.properties.times).toHaveLength(tracks[0]!.geometry.coordinates.length);
    expect(rest.some(({ properties }) => properties.alert === 'outside-circle')).toBe(true);
    expect(() => check(text.replace('"LineString"', '"Linestring"'))).toThrow();
  });

  test('GeoJSON: a line is cut at the antimeridian, and no line has less than two positions', async () => {
    const text = await whole(geojson({ night: await night(), fixes: listed(across) }));
    const collection = check(text) as unknown as Collection;
    const lines = collection.features
      .filter(({ properties }) => properties.kind === 'track')
      .map(({ geometry }) => geometry.coordinates as [number, number][]);
    expect(lines.map((line) => line.map(([lon]) => lon))).toEqual([
      [179.9999, 179.99998, 180],
      [-180, -179.99994],
      [-179.9999, -179.9999],
    ]);
    // The crossing lies on the way: a quarter of it from the last fix in the east.
    expect(lines[0]![2]![1]).toBeCloseTo(-16.5 + 1.25e-6, 7);
    expect(lines[1]![0]![1]).toBe(lines[0]![2]![1]);
  });

  test('CSV: units in the header, ISO 8601 UTC, unknown is empty', async () => {
    const { logbook } = await kept;
    const text = await whole(await logbook.export(ID, 'csv'));
    const [head, ...rows] = text
      .trimEnd()
      .split('\r\n')
      .map((row) => row.split(','));
    expect(head!.filter((name) => !/\(.+\)$/.test(name))).toEqual([]);
    expect(head![0]).toBe('time (ISO 8601 UTC)');
    expect(rows.every((row) => row.length === head!.length)).toBe(true);
    const { summary } = await night();
    const [lat, lon, distance] = ['latitude', 'longitude', 'distance to mark'].map((name) =>
      head!.findIndex((one) => one.startsWith(name)),
    ) as [number, number, number];
    for (const row of rows.slice(0, 50)) {
      const there = { lat: Number(row[lat]), lon: Number(row[lon]) };
      expect(distanceBearing(there, summary.mark).distance).toBeCloseTo(Number(row[distance]), 1);
    }
    const bare = await whole(csv({ night: await night(), fixes: listed(across) }));
    expect(bare.split('\r\n')[1]).toMatch(/^2023-11-14T22:13:20\.000Z,-16\.50000000,179\.99990000,0,,,,/);
  });
});

interface Collection {
  features: {
    geometry: { coordinates: unknown[] };
    properties: { kind: string; alert?: string; times?: string[]; summary?: unknown };
  }[];
}
